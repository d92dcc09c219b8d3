package desk

import (
	"cmp"
	"io"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/calendar"
	"steeltally/inventory/deeds"
)

// ImportGames says how a calendar file is to be understood.
type ImportGames struct {
	Home string // what the place of home games is called; empty: go by the names
	As   string // game or practice, for what does not say; empty: leave it out
}

// LeftOut is an entry of a calendar file that was not taken.
type LeftOut struct {
	Entry  string `json:"entry"`
	Start  string `json:"start,omitempty"`
	Reason string `json:"reason"`
}

// Imported is what a calendar file came to.
type Imported struct {
	Games     int       `json:"games"`
	Practices int       `json:"practices"`
	LeftOut   []LeftOut `json:"left_out"`
}

// scheduleAhead is how far what recurs without an end is followed.
const scheduleAhead = 400 * 24 * time.Hour

// ImportGames brings the schedule up to a calendar file.
func (d *Desk) ImportGames(file io.Reader, how ImportGames) (Imported, Done, error) {
	imported := Imported{LeftOut: []LeftOut{}}
	entries, skipped, err := calendar.Read(file, d.zone, d.options.Now().Add(scheduleAhead))
	if err != nil {
		return imported, Done{}, &inventory.BadValue{Reason: err.Error(), Hint: "export the schedule as iCalendar, a file that ends in .ics"}
	}
	for _, s := range skipped {
		imported.LeftOut = append(imported.LeftOut, LeftOut{Entry: cmp.Or(s.Summary, s.UID), Reason: s.Reason})
	}
	var deed deeds.ImportSchedule
	err = d.ask(func(v inventory.View, _ time.Time) error {
		club := calendar.Club{Name: inventory.ClubOf(v).Name, Home: how.Home}
		for _, entry := range entries {
			d.schedule(club, entry, how.As, &deed, &imported)
		}
		return nil
	})
	if err != nil {
		return imported, Done{}, err
	}
	done, err := d.do(deed)
	return imported, done, err
}

// schedule takes one entry in, or says why not.
func (d *Desk) schedule(club calendar.Club, entry calendar.Entry, as string, deed *deeds.ImportSchedule, imported *Imported) {
	meaning := club.Meaning(entry)
	if !meaning.Game && !meaning.Practice {
		meaning.Practice, meaning.Game = as == "practice", as == "game"
		meaning.Opponent = entry.Summary
	}
	reason := ""
	switch {
	case entry.AllDay:
		reason = "a game or practice needs its time of day"
	case !meaning.Game && !meaning.Practice:
		reason = "its name says neither a game nor a practice; --as takes it for one"
	}
	if reason != "" {
		imported.LeftOut = append(imported.LeftOut, LeftOut{entry.Summary, inventory.At(entry.Start).Say(d.zone), reason})
		return
	}
	s := deeds.Scheduled{Start: inventory.At(entry.Start), Game: meaning.Game, Away: meaning.Away, Cancelled: entry.Cancelled}
	s.UID, s.Sequence = entry.UID, entry.Sequence
	if !entry.Instance.IsZero() {
		s.Instance = inventory.At(entry.Instance)
	}
	if meaning.Game {
		s.Opponent = meaning.Opponent
		imported.Games++
	} else {
		s.Note = entry.Summary
		imported.Practices++
	}
	deed.Entries = append(deed.Entries, s)
}

// SessionLine is a game or a practice in a list.
type SessionLine struct {
	Start    string `json:"start"`
	Game     bool   `json:"game"`
	Opponent string `json:"opponent,omitempty"`
	Away     bool   `json:"away,omitempty"`
	Note     string `json:"note,omitempty"`
}

// listedAhead and listedBack are what a list of the schedule shows.
const (
	listedAhead = 60 * 24 * time.Hour
	listedBack  = 7 * 24 * time.Hour
)

// Schedule lists the games and practices of the last week and the next two months, or
// of the whole season.
func (d *Desk) Schedule(all bool) ([]SessionLine, error) {
	lines := []SessionLine{}
	err := d.ask(func(v inventory.View, at time.Time) error {
		from, until := at.Add(-listedBack), at.Add(listedAhead)
		if all {
			from, until = at.AddDate(-1, 0, 0), at.AddDate(1, 0, 0)
		}
		for _, s := range inventory.Sessions(v, from, until) {
			lines = append(lines, SessionLine{s.When.Say(d.zone), s.Value.Game, s.Value.Opponent, s.Value.Away, s.Value.Note})
		}
		return nil
	})
	return lines, err
}
