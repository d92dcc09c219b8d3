package desk

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// Bench is what the person at the jig has to see of a player, to be drawn large.
type Bench struct {
	Player    inventory.Number
	Sweater   int
	Name      string
	Position  string
	Pair      inventory.Number
	Role      inventory.Role // of the pair
	Moment    string         // why he skates on it, where it is not his first; else empty
	Set       string         // the letter of the set that is on; empty: none is
	Hollow    string
	Profile   string
	Pitch     string
	Passes    string // the usual ones
	LastGrind string
	Heights   [2]BenchHeight // left, right
	Change    *geometry.Millimetre
	Wrong     []string // what nobody may skate on comes first
	Ready     []SetLine
}

// BenchHeight is how high a runner is that is on.
type BenchHeight struct {
	Side   inventory.Side
	Runner inventory.Number // zero: none is known
	Said   string           // "about 15.1 now; measured 16.62 on 23 Nov"
	Due    bool             // it has reached the change height
}

// Bench tells what is on a player's pair, how it is ground, and what is wrong with it.
func (d *Desk) Bench(target Target) (Bench, error) {
	var bench Bench
	asides := d.unsafeAsides()
	err := d.askNow(func(v *standing.Now) error {
		at := v.At
		defer func() {
			if said := asides.about(v, at, target.Player).Say(); said != "" {
				bench.Wrong = append([]string{said}, bench.Wrong...)
			}
		}()
		player, err := inventory.PlayerOf(v, target.Player)
		if err != nil {
			return err
		}
		specs := player.SpecsAt(at)
		bench = Bench{
			Player: player.Number, Sweater: player.Sweater(at), Name: player.Name, Position: player.Position,
			Hollow: "not told", Profile: "not told", Pitch: "not told", Passes: "not told", Change: specs.ChangeHeight,
		}
		bench.specs(specs)
		bench.Ready = readySets(v, player, at)
		pair, err := pairMeant(v, target, at)
		if err != nil {
			bench.Wrong = []string{err.Error()}
			return nil
		}
		bench.Pair, bench.Role, bench.Moment = pair.Number, pair.Role(at), d.sayMoment(v, player, pair)
		bench.Wrong = d.warnings(v, player, pair, at)
		set, err := inventory.FindSet(v, pair.SetAt(at))
		if err != nil {
			bench.Wrong = append(bench.Wrong, "no set is on")
			return nil
		}
		bench.Set, bench.LastGrind = set.Letter, d.lastGrind(v, set, at)
		bench.Heights = d.heightsOn(v, set, specs)
		return nil
	})
	return bench, err
}

func (b *Bench) specs(specs inventory.Specs) {
	if specs.Hollow != nil {
		b.Hollow = specs.Hollow.String()
	}
	if len(specs.Profile) > 0 {
		b.Profile = specs.Profile.String()
	}
	if specs.Pitch != nil {
		b.Pitch = strings.TrimPrefix(inventory.SayPitch(*specs.Pitch), "pitch ")
	}
	if specs.Passes != nil {
		b.Passes = strconv.Itoa(*specs.Passes)
	}
}

// readySets are the sets that could go on, the latest first.
func readySets(v inventory.View, player *inventory.Player, at time.Time) []SetLine {
	var ready []SetLine
	for _, set := range standing.ReadySets(v, player, at) {
		if standing.Skateable(v, at, set.Number) {
			ready = append(ready, setLine(v, set, at))
		}
	}
	return ready
}

// sayMoment says why a player skates on another pair than his first; empty where he does not.
func (d *Desk) sayMoment(v *standing.Now, player *inventory.Player, pair *inventory.Pair) string {
	on, err := standing.SkatesOn(v, player, v.At)
	if err != nil || on.Moment == nil || on.Number != pair.Number {
		return ""
	}
	return fmt.Sprintf("on his %s pair for the moment, since %s: his first broke on the %s", pair.Role(v.At), on.Moment.Since.Say(d.zone), on.Moment.Side)
}

// noneOn is said of a side on which there is no steel.
const noneOn = "none is on"

// heightsOn are the heights of a set's runners; of one that is on, those that are.
func (d *Desk) heightsOn(v *standing.Now, set *inventory.Set, specs inventory.Specs) [2]BenchHeight {
	var heights [2]BenchHeight
	on := standing.PairOf(v, set.Number, v.At)
	for i, side := range inventory.Sides() {
		heights[i].Side, heights[i].Said = side, noneOn
		if _, err := inventory.FindRunner(v, set.Runner(side)); err != nil || standing.PairOf(v, set.Runner(side), v.At) != on {
			continue
		}
		height := v.HeightOf(set.Runner(side))
		heights[i].Runner, heights[i].Said = set.Runner(side), d.sayHeightNow(height)
		heights[i].Due = specs.ChangeHeight != nil && height.AtEnd(*specs.ChangeHeight)
	}
	return heights
}

// sayHeightNow says how high a runner is: what is expected now, and what was measured.
func (d *Desk) sayHeightNow(h standing.Height) string {
	if h.Last == nil && h.Now == nil {
		return "not known"
	}
	measured := "never measured"
	if h.Last != nil {
		measured = fmt.Sprintf("measured %.2f on %s", float64(h.Last.Height), h.Last.When.SayDay(d.zone))
	}
	switch {
	case h.Now == nil:
		return measured + ", " + h.CannotSay
	case h.Since == 0 && h.Last != nil:
		return measured
	case h.Low == nil:
		return fmt.Sprintf("%s, %s", h.Now, measured)
	}
	return fmt.Sprintf("about %.1f now; %s", float64(*h.Now), measured)
}

// BoardLine is a player with steel on, and whether it was worked on for this session.
type BoardLine struct {
	Number  inventory.Number
	Sweater int
	Name    string
	Done    bool
	Why     string // what else is to be known of steel that was not; empty: nothing
	At      string // the time of the last work today, such as 07:12
	Error   string // why it can't be told; empty: it can
}

// Board tells of everybody with steel on who was logged this session, in sweater order.
func (d *Desk) Board() ([]BoardLine, error) {
	var board []BoardLine
	err := d.ask(func(v inventory.View, at time.Time) error {
		since := d.sessionSince(v, at)
		for _, n := range standing.Skating(v, at) {
			line := BoardLine{Number: n, Name: n.Short()}
			failed := inventory.Guard(func() error { return d.boardLine(v, &line, since, at) })
			if failed != nil {
				u := inventory.Unworked{About: n, Sweater: line.Sweater, Name: line.Name, Cause: KeepFault(d.options, "the board", failed)}
				line.Error, line.Done = u.Whose()+": "+u.Say(), false
			}
			board = append(board, line)
		}
		return nil
	})
	slices.SortStableFunc(board, func(a, b BoardLine) int { return cmp.Compare(a.Sweater, b.Sweater) })
	return board, err
}

// sessionSince is since when work is for this session: the start of the last game or
// practice in the schedule that is not long over, after which steel is ground anew, also
// beyond midnight; else the morning.
func (d *Desk) sessionSince(v inventory.View, at time.Time) time.Time {
	morning := d.morning(at)
	from := morning
	if evening := at.Add(-sessionWork); evening.Before(morning) {
		from = evening
	}
	if past := inventory.Sessions(v, from, at); len(past) > 0 {
		return past[len(past)-1].When.Start
	}
	return morning
}

// sessionWork is how long after its start steel is still ground for a game or a practice of
// the evening before; common practice, no source.
const sessionWork = 8 * time.Hour

// boardLine tells whether the steel that one player skates on was logged.
func (d *Desk) boardLine(v inventory.View, line *BoardLine, since, at time.Time) error {
	player, err := inventory.PlayerOf(v, line.Number)
	if err != nil {
		return err
	}
	line.Sweater, line.Name = player.Sweater(at), player.Name
	pair, err := standing.SkatesOn(v, player, at)
	if err != nil {
		return err
	}
	set, err := inventory.FindSet(v, pair.SetAt(at))
	if err != nil {
		set = &inventory.Set{} // undone since: nothing is known of it
	}
	works := set.Works.Until(at)
	switch {
	case set.GroundSince(since, at):
		line.Done, line.At = true, works[len(works)-1].When.Start.In(d.zone).Format("15:04")
	case standing.NeverGround(set, at):
		line.Why = "never ground"
	case player.GroundSince(since, at):
		line.Why = "other steel only"
	}
	return nil
}

// NotLogged are the players of the board who were not logged for this session.
func (d *Desk) NotLogged() ([]BoardLine, error) {
	board, err := d.Board()
	return slices.DeleteFunc(board, func(line BoardLine) bool { return line.Done }), err
}

// SayNotLogged names them; nothing is ever assumed.
func SayNotLogged(missing []BoardLine) string {
	if len(missing) == 0 {
		return "everybody with steel on was logged this session"
	}
	var names []string
	for _, line := range missing {
		name := line.Short()
		if line.Why != "" {
			name += " (" + line.Why + ")"
		}
		names = append(names, name)
	}
	return "not logged this session: " + strings.Join(names, ", ")
}

// Short is how a player is called where room is short: by sweater, else by name.
func (l BoardLine) Short() string { return sweaterOr(l.Sweater, l.Name) }

// called is how a player is called where room is short.
func called(player *inventory.Player, at time.Time) string {
	return sweaterOr(player.Sweater(at), player.Name)
}

func sweaterOr(sweater int, name string) string {
	if sweater == 0 {
		return name
	}
	return strconv.Itoa(sweater)
}

// morning is the start of the day that an instant lies in, where the club is.
func (d *Desk) morning(at time.Time) time.Time {
	local := at.In(d.zone)
	return time.Date(local.Year(), local.Month(), local.Day(), 0, 0, 0, 0, d.zone)
}

// TypeHeights is how a height is typed, as ParseHeights reads it.
func TypeHeights(h inventory.Height) string {
	var typed []string
	for _, value := range []*geometry.Millimetre{h.Toe, h.Middle, h.Heel} {
		if value != nil {
			typed = append(typed, strconv.FormatFloat(float64(*value), 'f', -1, 64))
		}
	}
	return strings.Join(typed, ",")
}

// ParseHeights reads the heights of one runner as typed: the middle alone, or
// toe,middle,heel.
func ParseHeights(text string) (inventory.Height, error) {
	parts := strings.Split(text, ",")
	if len(parts) != 1 && len(parts) != 3 {
		return inventory.Height{}, &inventory.BadValue{Reason: fmt.Sprintf("%q is not one height, nor three", text), Hint: "give the middle alone, or toe,middle,heel"}
	}
	values := make([]*geometry.Millimetre, len(parts))
	for i, part := range parts {
		value, err := geometry.ParseHeight(part)
		if err != nil {
			return inventory.Height{}, &inventory.BadValue{Reason: err.Error(), Hint: "such as 11.2, or 11.1,11.2,11.0"}
		}
		values[i] = &value
	}
	if len(values) == 1 {
		return inventory.Height{Middle: values[0]}, nil
	}
	return inventory.Height{Toe: values[0], Middle: values[1], Heel: values[2]}, nil
}
