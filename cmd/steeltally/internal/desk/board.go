package desk

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

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
// practice in the schedule since yesterday, after which steel is ground anew; else the
// morning.
func (d *Desk) sessionSince(v inventory.View, at time.Time) time.Time {
	morning := d.morning(at)
	if past := inventory.Sessions(v, morning.AddDate(0, 0, -1), at); len(past) > 0 {
		return past[len(past)-1].When.Start
	}
	return morning
}

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
