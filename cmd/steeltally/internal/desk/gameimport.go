package desk

import (
	"cmp"
	"fmt"
	"io"
	"strings"
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

// Calendar is a calendar file as it was read, before the schedule was looked at.
type Calendar struct {
	entries []calendar.Entry
	skipped []calendar.Skipped
}

// ReadCalendar reads a calendar file. The book is open for a look at its time zone only,
// and held by nobody while the file is followed.
func ReadCalendar(o Options, file io.Reader, encoding string) (Calendar, error) {
	var c Calendar
	text, err := wholeText(file, encoding)
	if err != nil {
		return c, err
	}
	d, err := OpenToRead(o)
	if err != nil {
		return c, err
	}
	zone := d.Zone()
	if err := d.Close(); err != nil {
		return c, err
	}
	c.entries, c.skipped, err = calendar.Read(text, zone, o.Now().Add(scheduleAhead))
	if err != nil {
		return c, &inventory.BadValue{Reason: err.Error(), Hint: "export the schedule as iCalendar, a file that ends in .ics"}
	}
	return c, nil
}

// ImportGames brings the schedule up to a calendar file.
func (d *Desk) ImportGames(file Calendar, how ImportGames) (Imported, Done, error) {
	imported := Imported{LeftOut: []LeftOut{}}
	var deed deeds.ImportSchedule
	for _, s := range file.skipped {
		imported.LeftOut = append(imported.LeftOut, LeftOut{Entry: cmp.Or(s.Summary, s.UID), Reason: s.Reason})
		if !s.Known {
			deed.Unread = append(deed.Unread, s.UID)
		}
	}
	err := d.ask(func(v inventory.View, _ time.Time) error {
		club := calendar.Club{Name: inventory.ClubOf(v).Name, Home: how.Home}
		for _, entry := range file.entries {
			d.schedule(club, entry, how.As, &deed, &imported)
		}
		return nil
	})
	if err != nil {
		return imported, Done{}, err
	}
	if len(deed.Entries) == 0 && len(file.entries) > 0 {
		return imported, Done{}, d.noneOfClub(file.entries)
	}
	done, err := d.do(deed)
	return imported, done, err
}

// mostNames is how many names of a calendar are told.
const mostNames = 3

// noneOfClub says which names stand in a calendar of which none can be taken, and how a
// game and a practice are known.
func (d *Desk) noneOfClub(entries []calendar.Entry) error {
	club, err := d.Club()
	if err != nil {
		return err
	}
	var names []string
	for _, entry := range entries[:min(len(entries), mostNames)] {
		names = append(names, inventory.Quoted(oneLine(entry.Summary)))
	}
	if more := len(entries) - len(names); more > 0 {
		names = append(names, fmt.Sprintf("%d more", more))
	}
	return inventory.RefuseValue(
		fmt.Sprintf("nothing in the file can be taken for a game or a practice: %s", strings.Join(names, ", ")),
		fmt.Sprintf("a game is known by %q or a word of it beside the opponent's name, a practice by that word; --as game or --as practice takes what is neither, and steeltally club --name says what the club is called", club.Name))
}

// schedule takes one entry in, or says why not.
func (d *Desk) schedule(club calendar.Club, entry calendar.Entry, as string, deed *deeds.ImportSchedule, imported *Imported) {
	meaning := club.Meaning(entry)
	if !meaning.Game && !meaning.Practice {
		meaning.Practice, meaning.Game = as == "practice", as == "game"
		meaning.Opponent = entry.Summary
	}
	s := scheduled(entry, meaning)
	reason := ""
	switch err := s.Check(); {
	case entry.AllDay:
		reason = "a game or practice needs its time of day"
	case !meaning.Game && !meaning.Practice:
		reason = "its name says neither a game nor a practice; --as takes it for one"
	case err != nil:
		reason = err.Error()
	}
	if reason != "" {
		imported.LeftOut = append(imported.LeftOut, LeftOut{entry.Summary, s.Start.Say(d.zone), reason})
		deed.Unread = append(deed.Unread, entry.UID)
		return
	}
	if meaning.Game {
		imported.Games++
	} else {
		imported.Practices++
	}
	deed.Entries = append(deed.Entries, s)
}

// scheduled is an entry as it stands in the schedule. Its name can have several lines
// in a calendar, and has one here.
func scheduled(entry calendar.Entry, meaning calendar.Meaning) deeds.Scheduled {
	s := deeds.Scheduled{Start: inventory.At(entry.Start), Game: meaning.Game, Away: meaning.Away, Cancelled: entry.Cancelled}
	s.UID, s.Sequence = entry.UID, entry.Sequence
	if !entry.Instance.IsZero() {
		s.Instance = inventory.At(entry.Instance)
	}
	if meaning.Game {
		s.Opponent = oneLine(meaning.Opponent)
	} else {
		s.Note = oneLine(entry.Summary)
	}
	return s
}

func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

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
