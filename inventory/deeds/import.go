package deeds

import (
	"fmt"
	"slices"
	"time"

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
type ImportSchedule struct {
	Entries []Scheduled
	Unread  []string // UIDs of entries of the file that were left out: what is known of these stays
}

// movedMonths is how far from its new time an entry that moved is looked for.
const movedMonths = 14

// Decide adds what is new, moves what moved and takes out what was called off. What was
// entered by hand at the same time is taken over. What of a series is to come and no
// longer in the file is taken out; what is past stays.
func (d ImportSchedule) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if len(d.Entries) == 0 {
		return out, inventory.RefuseValue("the file has no game or practice", "export the schedule again, with its games")
	}
	for _, entry := range d.Entries {
		if err := entry.Check(); err != nil {
			return out, err
		}
	}
	known := indexOf(d.known(v))
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
		return out, inventory.Refuse("the schedule is as in the file already", "steeltally game list shows it")
	}
	return out, nil
}

// Check refuses what can't stand in the schedule.
func (s Scheduled) Check() error {
	if s.UID == "" || !s.Start.Exact() {
		return inventory.RefuseValue("an entry of the file has no number or no time of day", "export the schedule again")
	}
	if !s.Start.InYears(time.UTC) {
		return inventory.RefuseValue(fmt.Sprintf("it is not in the years %d to %d", inventory.LeastYear, inventory.MostYear), "check the year")
	}
	if s.Game {
		return checkName("the opponent's name", s.Opponent)
	}
	return inventory.CheckWritten([]string{s.UID, s.Note})
}

// known lists the sessions of the schedule around the times of the file.
func (d ImportSchedule) known(v inventory.View) inventory.Timeline[inventory.Session] {
	first := slices.MinFunc(d.Entries, func(a, b Scheduled) int { return a.Start.Compare(b.Start) }).Start.Start
	last := slices.MaxFunc(d.Entries, func(a, b Scheduled) int { return a.Start.Compare(b.Start) }).Start.Start
	return inventory.Sessions(v, first.AddDate(0, -movedMonths, 0), last.AddDate(0, movedMonths, 0))
}

// calendarIndex finds what is known of the schedule by where it comes from.
type calendarIndex struct {
	all    inventory.Timeline[inventory.Session]
	byUID  map[string]inventory.Timeline[inventory.Session]
	byHand map[time.Time]inventory.Timeline[inventory.Session] // by start
}

func indexOf(known inventory.Timeline[inventory.Session]) calendarIndex {
	index := calendarIndex{known, map[string]inventory.Timeline[inventory.Session]{}, map[time.Time]inventory.Timeline[inventory.Session]{}}
	for _, session := range known {
		if from := session.Value.Calendar; from != nil {
			index.byUID[from.UID] = append(index.byUID[from.UID], session)
		} else {
			index.byHand[session.When.Start] = append(index.byHand[session.When.Start], session)
		}
	}
	return index
}

// among finds an entry among what is known: what it takes the place of, or that it
// stays as it is. A file that is older than what is known changes nothing.
func (s Scheduled) among(known calendarIndex) (was []inventory.Key, stays bool) {
	for _, session := range known.byHand[s.Start.Start] {
		if session.Value.Game == s.Game && !s.Cancelled {
			was = append(was, session.Event)
		}
	}
	for _, session := range known.byUID[s.UID] {
		switch from := session.Value.Calendar; {
		case from.Instance.Compare(s.Instance) != 0:
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
func (d ImportSchedule) dropped(known calendarIndex, m Moment) []inventory.Key {
	series, here := map[string]bool{}, map[inventory.InCalendar]bool{}
	for _, s := range d.Entries {
		series[s.UID], here[inventory.InCalendar{UID: s.UID, Instance: s.Instance}] = true, true
	}
	for _, uid := range d.Unread {
		series[uid] = false
	}
	var dropped []inventory.Key
	for _, session := range known.all {
		from := session.Value.Calendar
		if from == nil || !session.When.After(m.Now) {
			continue
		}
		if series[from.UID] && !here[inventory.InCalendar{UID: from.UID, Instance: from.Instance}] {
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
		what := "1 entry of the schedule was"
		if len(going) > 1 {
			what = fmt.Sprintf("%d entries of the schedule were", len(going))
		}
		out.tell(what+" moved, changed or called off", "")
	}
}
