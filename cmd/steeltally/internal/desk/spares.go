package desk

import (
	"math"
	"strconv"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/roadtrip"
	"steeltally/inventory/sparepair"
	"steeltally/inventory/standing"
)

// SpareLine is one player's spare pair for the road, with what it was compared by.
type SpareLine struct {
	Number     inventory.Number  `json:"number"`
	Sweater    int               `json:"sweater"` // 0: none, as in camp
	Name       string            `json:"name"`
	CalledUp   bool              `json:"called_up,omitempty"`
	State      sparepair.State   `json:"state"`
	Cause      string            `json:"cause"` // empty: ready
	Fix        string            `json:"fix,omitempty"`
	Hint       string            `json:"hint,omitempty"`
	Minutes    int               `json:"minutes"`
	MinutesAll int               `json:"minutes_all"`
	Causes     []sparepair.Cause `json:"causes"`
	Pair       inventory.Number  `json:"pair"`
	Place      string            `json:"place"` // of the pair
	DoNotSkate bool              `json:"do_not_skate"`
	Compared   ComparedLine      `json:"compared"`
	First      FirstLine         `json:"first_pair"`
	Sets       []ReadyLine       `json:"sets"`
	Tag        string            `json:"tag,omitempty"`   // why the pair needs a new tag
	Error      string            `json:"error,omitempty"` // why nothing of this can be told
}

// FirstLine is what is wrong with the pair that is skated every day.
type FirstLine struct {
	Pair       inventory.Number  `json:"pair"`
	State      sparepair.State   `json:"state"`
	Place      string            `json:"place"`
	DoNotSkate bool              `json:"do_not_skate"`
	Set        string            `json:"set,omitempty"`
	Causes     []sparepair.Cause `json:"causes"`
}

// ReadyLine is a set that lies ready, or would.
type ReadyLine struct {
	PieceLine
	Set    string            `json:"set"`
	Fit    sparepair.State   `json:"readiness"` // for the road
	Causes []sparepair.Cause `json:"causes"`
	Felt   SidesMillimetre   `json:"felt_mm"`
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
			sparepair.WorstFirst(squad)
		}
		for i := range squad {
			lines = append(lines, d.spareLine(v, &squad[i], v.At))
		}
		return nil
	})
	return lines, err
}

// squadAsked are the players that were named, those of a trip, or all.
func (d *Desk) squadAsked(v *standing.Now, asked SparesAsked) ([]sparepair.Player, error) {
	if asked.Trip != "" {
		trip, err := inventory.FindTrip(v, asked.Trip)
		if err != nil {
			return nil, err
		}
		return roadtrip.Travellers(sparepair.Squad(v), trip), nil
	}
	if len(asked.Players) == 0 {
		return sparepair.Squad(v), nil
	}
	numbers, err := d.resolveAll(v, asked.Players, lookUpPlayer)
	if err != nil {
		return nil, err
	}
	var squad []sparepair.Player
	for _, n := range numbers {
		player, err := inventory.PlayerOf(v, n)
		if err != nil {
			return nil, err
		}
		squad = append(squad, sparepair.Of(v, player))
	}
	return squad, nil
}

// spareLine tells of one player, and where that can't be told, why.
func (d *Desk) spareLine(v inventory.View, p *sparepair.Player, at time.Time) SpareLine {
	line := spareLine(v, p, at)
	if u := p.Unworked; u != nil {
		d.keepOne("the spare pair", u)
		line.Error, line.Hint = u.Say(), UnworkedHint(*u)
		return line
	}
	line.Tag = tagWanted(v, p, at)
	return line
}

func spareLine(v inventory.View, p *sparepair.Player, at time.Time) SpareLine {
	cause := p.Spare.Cause()
	line := SpareLine{
		Number: p.Number, Sweater: p.Sweater, Name: p.Name, CalledUp: p.CalledUp, State: p.State(),
		Cause: cause.What, Fix: string(cause.Fix), Hint: cause.Hint, Minutes: cause.Minutes, MinutesAll: p.Spare.Minutes(),
		Causes: append([]sparepair.Cause{}, p.Spare.Causes...), Pair: p.Spare.Number, Place: p.Spare.Place.String(),
		Compared: comparedLine(&p.Spare, at), Sets: []ReadyLine{},
		DoNotSkate: !standing.Skateable(v, at, p.Spare.Number),
		First: FirstLine{
			p.First.Number, p.First.State, p.First.Place.String(), !standing.Skateable(v, at, p.First.Number), p.First.Set, append([]sparepair.Cause{}, p.First.Causes...),
		},
	}
	if line.State == sparepair.Declined {
		line.Cause = "he would rather not play on it"
	}
	for _, set := range p.Sets {
		line.Sets = append(line.Sets, ReadyLine{
			pieceLine(v, set.Number, at), set.Letter, set.State, append([]sparepair.Cause{}, set.Causes...), sidesMillimetre(set.Felt),
		})
	}
	return line
}

// tagWanted says why a player's spare pair needs a tag: none came out yet, or what it
// shows is not so any more.
func tagWanted(v inventory.View, p *sparepair.Player, at time.Time) string {
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

// ComparedLine is what a spare pair was compared by: the specs of today and what it was
// ground to, heights left and right, and the days since.
type ComparedLine struct {
	Set         string               `json:"set,omitempty"`
	Hollow      string               `json:"hollow,omitempty"` // it was ground to
	HollowSpec  string               `json:"hollow_spec,omitempty"`
	Profile     string               `json:"profile,omitempty"`
	ProfileSpec string               `json:"profile_spec,omitempty"`
	Pitch       *geometry.Millimetre `json:"pitch_mm,omitempty"`
	PitchSpec   *geometry.Millimetre `json:"pitch_spec_mm,omitempty"`
	Height      SidesMillimetre      `json:"height_mm"`
	HeightFirst SidesMillimetre      `json:"height_first_pair_mm"`
	Tried       *int                 `json:"tried_days_ago,omitempty"`
	Looked      *int                 `json:"looked_days_ago,omitempty"`
	Ground      *int                 `json:"ground_days_ago,omitempty"`
	Skated      *int                 `json:"skated_days_ago,omitempty"`
}

// SidesMillimetre is a length for each side; what is not there is not known.
type SidesMillimetre struct {
	Left  *geometry.Millimetre `json:"left,omitempty"`
	Right *geometry.Millimetre `json:"right,omitempty"`
}

func sidesMillimetre(both inventory.Both[geometry.Millimetre]) SidesMillimetre {
	return SidesMillimetre{hundredths(both.Left), hundredths(both.Right)}
}

// hundredths rounds a difference to what a caliper shows.
func hundredths(l *geometry.Millimetre) *geometry.Millimetre {
	if l == nil {
		return nil
	}
	rounded := geometry.Millimetre(math.Round(float64(*l)*100) / 100)
	return &rounded
}

func comparedLine(p *sparepair.Pair, at time.Time) ComparedLine {
	line := ComparedLine{
		Set: p.Set, Profile: p.Ground.Profile.String(), ProfileSpec: p.Specs.Profile.String(),
		Pitch: p.Pitch, PitchSpec: p.Specs.Pitch,
		Height: heightsLine(p.Heights), HeightFirst: heightsLine(p.Against),
		Tried: daysAgo(p.Tried, at), Looked: daysAgo(p.Looked, at), Ground: daysAgo(p.Ground.When, at), Skated: daysAgo(p.Skated, at),
	}
	if p.Ground.Hollow != nil {
		line.Hollow = p.Ground.Hollow.String()
	}
	if p.Specs.Hollow != nil {
		line.HollowSpec = p.Specs.Hollow.String()
	}
	return line
}

func heightsLine(heights inventory.Both[standing.Height]) SidesMillimetre {
	var line SidesMillimetre
	if heights.Left != nil {
		line.Left = heights.Left.Now
	}
	if heights.Right != nil {
		line.Right = heights.Right.Now
	}
	return line
}

// daysAgo counts whole days; nil where it never was, as far as is known.
func daysAgo(when inventory.When, at time.Time) *int {
	if when.Unknown() {
		return nil
	}
	days := int(at.Sub(when.Start) / (24 * time.Hour))
	return &days
}

// Tried notes what a player said of a pair that he tried; a player stands for his spare.
func (d *Desk) Tried(who string, deed deeds.NoteTry) (Done, error) {
	return d.act(func(v inventory.View, m deeds.Moment) (_ deeds.Deed, err error) {
		deed.Pair, err = spareMeant(v, who, d.Instant())
		return deed, err
	})
}

// Skated notes a practice or a game on a pair that is not the first.
func (d *Desk) Skated(who string, game bool) (Done, error) {
	return d.act(func(v inventory.View, m deeds.Moment) (deeds.Deed, error) {
		pair, err := spareMeant(v, who, d.Instant())
		return deeds.NoteSkated{Pair: pair, Game: game}, err
	})
}

// Pitch notes how a pair's holders are pitched.
func (d *Desk) Pitch(who string, pitch geometry.Millimetre) (Done, error) {
	return d.act(func(v inventory.View, m deeds.Moment) (deeds.Deed, error) {
		pair, err := spareMeant(v, who, d.Instant())
		return deeds.NotePitch{Pair: pair, Pitch: pitch}, err
	})
}

// spareMeant is the pair that was scanned, or the spare pair of whom was named.
func spareMeant(v inventory.View, text string, at time.Time) (inventory.Number, error) {
	target, err := resolve(v, text, at)
	if err != nil {
		return 0, err
	}
	if target.Pair != 0 {
		return target.Pair, nil
	}
	if target.Player == 0 {
		return 0, notAPlayer(text)
	}
	player, err := inventory.PlayerOf(v, target.Player)
	if err != nil {
		return 0, err
	}
	pair, err := inventory.PairInRole(v, player, inventory.RoleSpare, at)
	if err != nil {
		return 0, err
	}
	return pair.Number, nil
}

// SetRules says when a spare pair counts as ready; no player is the club.
func (d *Desk) SetRules(player string, rules inventory.SpareRules) (Done, error) {
	return d.act(func(v inventory.View, m deeds.Moment) (_ deeds.Deed, err error) {
		deed := deeds.SetRules{SpareRules: rules}
		if player != "" {
			deed.Player, err = resolvePlayer(v, player, d.Instant())
		}
		return deed, err
	})
}

// Promote moves a player's pairs up.
func (d *Desk) Promote(player string) (Done, error) {
	return d.act(func(v inventory.View, m deeds.Moment) (deeds.Deed, error) {
		n, err := resolvePlayer(v, player, d.Instant())
		return deeds.Promote{Player: n}, err
	})
}

// Fixes lists the fixes whose minutes a club can set.
func Fixes() []string {
	var words []string
	for _, fix := range sparepair.Fixes() {
		words = append(words, string(fix))
	}
	return words
}
