package desk

import (
	"strconv"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
	"steeltally/inventory/travel"
)

// SpareLine is one player's spare pair for the road, with what it was compared by.
type SpareLine struct {
	Number     inventory.Number `json:"number"`
	Sweater    int              `json:"sweater"` // 0: none, as in camp
	Name       string           `json:"name"`
	CalledUp   bool             `json:"called_up,omitempty"`
	State      travel.State     `json:"state"`
	Cause      string           `json:"cause"` // empty: ready
	Fix        string           `json:"fix,omitempty"`
	Hint       string           `json:"hint,omitempty"`
	Minutes    int              `json:"minutes"`
	MinutesAll int              `json:"minutes_all"`
	Causes     []CauseLine      `json:"causes"`
	Pair       inventory.Number `json:"pair"`
	Place      string           `json:"place"` // of the pair
	DoNotSkate bool             `json:"do_not_skate"`
	Compared   ComparedLine     `json:"compared"`
	First      FirstLine        `json:"first_pair"`
	Sets       []ReadyLine      `json:"sets"`
	Tag        string           `json:"tag,omitempty"`   // why the pair needs a new tag
	Error      string           `json:"error,omitempty"` // why nothing of this can be told
}

// CauseLine is one thing to mend.
type CauseLine struct {
	Fix     string `json:"fix"`
	Cause   string `json:"cause"`
	Minutes int    `json:"minutes"`
	Hint    string `json:"hint"`
}

// FirstLine is what is wrong with the pair that is skated every day.
type FirstLine struct {
	Pair       inventory.Number `json:"pair"`
	State      travel.State     `json:"state"`
	Place      string           `json:"place"`
	DoNotSkate bool             `json:"do_not_skate"`
	Set        string           `json:"set,omitempty"`
	Causes     []CauseLine      `json:"causes"`
}

// ReadyLine is a set that lies ready, or would.
type ReadyLine struct {
	PieceLine
	Set    string          `json:"set"`
	Fit    travel.State    `json:"readiness"` // for the road
	Causes []CauseLine     `json:"causes"`
	Felt   SidesMillimetre `json:"felt_mm"`
}

// SparesAsked says whose spare pairs are asked for.
type SparesAsked struct {
	Players []string // empty: all
	Trip    string   // only who comes along
	Worst   bool     // what is missing first
}

// Spares tells which spare pairs travel, in sweater order unless asked otherwise.
func (d *Desk) Spares(asked SparesAsked) ([]SpareLine, error) {
	lines := []SpareLine{}
	err := d.askNow(func(v *standing.Now) error {
		squad, err := d.squadAsked(v, asked)
		if err != nil {
			return err
		}
		if asked.Worst {
			travel.WorstFirst(squad)
		}
		for i := range squad {
			lines = append(lines, d.spareLine(v, &squad[i], v.At))
		}
		return nil
	})
	return lines, err
}

// squadAsked are the players that were named, those of a trip, or all.
func (d *Desk) squadAsked(v *standing.Now, asked SparesAsked) ([]travel.Player, error) {
	if asked.Trip != "" {
		trip, err := inventory.FindTrip(v, asked.Trip)
		if err != nil {
			return nil, err
		}
		return travel.Travellers(travel.Squad(v), trip), nil
	}
	if len(asked.Players) == 0 {
		return travel.Squad(v), nil
	}
	numbers, err := d.resolveAll(v, asked.Players, lookUpPlayer)
	if err != nil {
		return nil, err
	}
	var squad []travel.Player
	for _, n := range numbers {
		player, err := inventory.PlayerOf(v, n)
		if err != nil {
			return nil, err
		}
		squad = append(squad, travel.Of(v, player))
	}
	return squad, nil
}

// spareLine tells of one player, and where that can't be told, why.
func (d *Desk) spareLine(v inventory.View, p *travel.Player, at time.Time) SpareLine {
	line := spareLine(v, p, at)
	if u := p.Unworked; u != nil {
		d.keepOne("the spare pair", u)
		line.Error, line.Hint = u.Say(), UnworkedHint(*u)
		return line
	}
	line.Tag = tagWanted(v, p, at)
	return line
}

func spareLine(v inventory.View, p *travel.Player, at time.Time) SpareLine {
	cause := p.Spare.Cause()
	line := SpareLine{
		Number: p.Number, Sweater: p.Sweater, Name: p.Name, CalledUp: p.CalledUp, State: p.State(),
		Cause: cause.What, Fix: string(cause.Fix), Hint: cause.Hint, Minutes: cause.Minutes, MinutesAll: p.Spare.Minutes(),
		Causes: causeLines(p.Spare.Causes), Pair: p.Spare.Number, Place: p.Spare.Place.String(),
		Compared: comparedLine(&p.Spare, at), Sets: []ReadyLine{},
		DoNotSkate: !standing.Skateable(v, at, p.Spare.Number),
		First: FirstLine{
			p.First.Number, p.First.State, p.First.Place.String(), !standing.Skateable(v, at, p.First.Number), p.First.Set, causeLines(p.First.Causes),
		},
	}
	if line.State == travel.Declined {
		line.Cause = "he would rather not play on it"
	}
	for _, set := range p.Sets {
		line.Sets = append(line.Sets, ReadyLine{
			pieceLine(v, set.Number, at), set.Letter, set.State, causeLines(set.Causes), sidesMillimetre(set.Felt),
		})
	}
	return line
}

func causeLines(causes []travel.Cause) []CauseLine {
	lines := []CauseLine{}
	for _, cause := range causes {
		lines = append(lines, CauseLine{string(cause.Fix), cause.What, cause.Minutes, cause.Hint})
	}
	return lines
}

// tagWanted says why a player's spare pair needs a tag: none came out yet, or what it
// shows is not so any more.
func tagWanted(v inventory.View, p *travel.Player, at time.Time) string {
	pair, err := inventory.FindPair(v, p.Spare.Number)
	if err != nil {
		return ""
	}
	player, err := inventory.PlayerOf(v, p.Number)
	if err != nil {
		return ""
	}
	last := pair.PrintsOf("pair", 0)
	switch {
	case last.Times == 0:
		return "no tag was printed"
	case changedSince(player.Specs.Until(at), last.Last):
		return "specs changed since the tag was printed"
	case changedSince(player.Sweaters.Until(at), last.Last):
		return "sweater changed since the tag was printed"
	case changedSince(pair.Roles.Until(at), last.Last):
		return "the pair has another role since the tag was printed"
	case !standing.Skateable(v, at, pair.Number):
		return "the tag has to say DO NOT SKATE"
	}
	return ""
}

// changedSince tells whether a line says something new after a time.
func changedSince[T any](line inventory.Timeline[T], since inventory.When) bool {
	return len(line) > 0 && line[len(line)-1].When.Start.After(since.Start)
}

// WantedTags lists the pairs of some lines whose tags should be printed.
func WantedTags(lines []SpareLine) []inventory.Number {
	var pairs []inventory.Number
	for _, line := range lines {
		if line.Tag != "" && line.Pair != 0 {
			pairs = append(pairs, line.Pair)
		}
	}
	return pairs
}

// Whose names a line's player as people call him: "17 Ansgar Lindqvarn".
func (l SpareLine) Whose() string {
	if l.Sweater == 0 {
		return l.Name
	}
	return strconv.Itoa(l.Sweater) + " " + l.Name
}
