package deeds

import (
	"fmt"
	"slices"

	"steeltally/inventory"
)

// Scheduled is a game or a practice as a calendar file has it.
type Scheduled struct {
	inventory.InCalendar
	Start     inventory.When
	Game      bool
	Opponent  string
	Away      bool
	Note      string
	Cancelled bool
}

// ImportSchedule brings the schedule up to a calendar file.
type ImportSchedule struct{ Entries []Scheduled }

// movedMonths is how far from its new time an entry that moved is looked for.
const movedMonths = 14

// Decide adds what is new, moves what moved and takes out what was called off. What was
// entered by hand at the same time is taken over. What of a series is to come and no
// longer in the file is taken out; what is past stays.
func (d ImportSchedule) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if len(d.Entries) == 0 {
		return out, inventory.RefuseValue("export the schedule again, with its games", "the file has no game or practice")
	}
	for _, entry := range d.Entries {
		if err := entry.check(); err != nil {
			return out, err
		}
	}
	known := d.known(v)
	var going []inventory.Key
	var coming []Scheduled
	for _, entry := range d.Entries {
		was, stays := entry.among(known)
		if stays {
			continue
		}
		going = append(going, was...)
		if !entry.Cancelled {
			coming = append(coming, entry)
		}
	}
	going = append(going, d.dropped(known, m)...)
	d.record(m, going, coming, &out)
	if len(out.Drafts) == 0 {
		return out, inventory.Refuse("steeltally game list shows it", "the schedule is as in the file already")
	}
	return out, nil
}

func (s Scheduled) check() error {
	if s.UID == "" || !s.Start.Exact() {
		return inventory.RefuseValue("export the schedule again", "an entry of the file has no number or no time of day")
	}
	if s.Game {
		return checkName("the opponent's name", s.Opponent)
	}
	return nil
}

// known lists the sessions of the schedule around the times of the file.
func (d ImportSchedule) known(v inventory.View) inventory.Timeline[inventory.Session] {
	first := slices.MinFunc(d.Entries, func(a, b Scheduled) int { return a.Start.Compare(b.Start) }).Start.Start
	last := slices.MaxFunc(d.Entries, func(a, b Scheduled) int { return a.Start.Compare(b.Start) }).Start.Start
	return inventory.Sessions(v, first.AddDate(0, -movedMonths, 0), last.AddDate(0, movedMonths, 0))
}

// among finds an entry among what is known: what it takes the place of, or that it
// stays as it is. A file that is older than what is known changes nothing.
func (s Scheduled) among(known inventory.Timeline[inventory.Session]) (was []inventory.Key, stays bool) {
	for _, session := range known {
		switch from := session.Value.Calendar; {
		case from == nil:
			if session.When.Start.Equal(s.Start.Start) && session.Value.Game == s.Game && !s.Cancelled {
				was = append(was, session.Event)
			}
		case from.UID != s.UID || from.Instance.Compare(s.Instance) != 0:
		case from.Sequence > s.Sequence, s.same(session) && !s.Cancelled:
			return nil, true
		default:
			was = append(was, session.Event)
		}
	}
	return was, s.Cancelled && len(was) == 0
}

func (s Scheduled) same(session inventory.Dated[inventory.Session]) bool {
	b := session.Value
	return session.When.Start.Equal(s.Start.Start) && b.Game == s.Game && b.Opponent == s.Opponent && b.Away == s.Away && b.Note == s.Note
}

// dropped lists what of the file's own series is still to come and not in it any more.
func (d ImportSchedule) dropped(known inventory.Timeline[inventory.Session], m Moment) []inventory.Key {
	var dropped []inventory.Key
	for _, session := range known {
		from := session.Value.Calendar
		if from == nil || !session.When.After(m.Now) {
			continue
		}
		series := slices.ContainsFunc(d.Entries, func(s Scheduled) bool { return s.UID == from.UID })
		here := slices.ContainsFunc(d.Entries, func(s Scheduled) bool { return s.UID == from.UID && s.Instance.Compare(from.Instance) == 0 })
		if series && !here {
			dropped = append(dropped, session.Event)
		}
	}
	return dropped
}

// record notes what goes and what comes, and counts it for the person.
func (d ImportSchedule) record(m Moment, going []inventory.Key, coming []Scheduled, out *Outcome) {
	if len(going) > 0 {
		out.record(m.Happened, &inventory.Correction{Words: "the calendar says otherwise", Voids: going})
	}
	for _, s := range coming {
		in := s.InCalendar
		out.record(s.Start, &inventory.Session{
			Game: s.Game, Opponent: s.Opponent, Away: s.Away, Note: s.Note, Month: inventory.ScheduleRef(s.Start.Start), Calendar: &in,
		})
	}
	if len(going) > 0 {
		out.tell("", fmt.Sprintf("%d entries of the schedule were moved, changed or called off", len(going)))
	}
}
