package deeds

import (
	"fmt"
	"slices"
	"strings"

	"steeltally/inventory"
)

// FoundClub opens a book for a club.
type FoundClub inventory.ClubNoted

// Decide records the club.
func (d FoundClub) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if v.Entity(inventory.ClubRef) != nil {
		return out, inventory.Refuse("this book belongs to "+inventory.ClubOf(v).Name+" already", "use it, or choose another folder with --book")
	}
	body := inventory.ClubNoted(d)
	body.Name = strings.TrimSpace(body.Name)
	if err := checkClub(&body); err != nil {
		return out, err
	}
	out.record(m.Happened, &body)
	return out, nil
}

func checkClub(c *inventory.ClubNoted) error {
	if err := checkName("the club's name", c.Name); err != nil {
		return err
	}
	if c.Station < 0 || c.Station > inventory.MaxStation {
		return inventory.RefuseValue(fmt.Sprintf("station %d: a station digit is 0 to %d", c.Station, inventory.MaxStation), "give each place where the program runs its own digit")
	}
	return nil
}

// ChangeClub changes what is said of the club, or the digit of the numbers that this
// folder gives; what is nil stays.
type ChangeClub struct {
	Name    *string
	Zone    *string
	Station *int
}

// Decide records the club as it is from now on. A digit that another folder has is
// allowed (a rebuilt book takes the lost one's place) and said.
func (d ChangeClub) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	club := inventory.ClubOf(v)
	station := club.StationOf(v.Writer())
	if d.Station == nil && !station.Known {
		return out, stationUnknown(club, "add --station DIGIT")
	}
	body := &inventory.ClubNoted{Name: strings.TrimSpace(or(d.Name, club.Name)), Zone: or(d.Zone, club.Zone), Station: or(d.Station, station.Digit)}
	if err := checkClub(body); err != nil {
		return out, err
	}
	theirs := func(other inventory.Digit) bool { return other.Writer != v.Writer() && other.Station == body.Station }
	if (d.Station != nil || !station.Own) && slices.ContainsFunc(club.Stations, theirs) {
		out.tell(fmt.Sprintf("another folder gave numbers as station %d", body.Station), "if that folder is still in use give one of them another digit, or both give the same numbers")
	}
	out.record(m.Happened, body)
	return out, nil
}

// AddSession puts a game or a practice in the schedule; it may be still to come.
type AddSession struct {
	Start    inventory.When
	Game     bool
	Opponent string
	Away     bool
	Note     string
}

// Decide refuses a game without a time of day and a second one at the same time.
func (d AddSession) Decide(v inventory.View, _ Moment) (Outcome, error) {
	var out Outcome
	if !d.Start.Exact() {
		return out, inventory.RefuseValue("a game or practice needs its day and time", "write it as 2025-11-04T19:00")
	}
	if d.Game {
		if err := checkName("the opponent's name", d.Opponent); err != nil {
			return out, err
		}
	}
	month := inventory.ScheduleRef(d.Start.Start)
	if schedule, ok := v.Entity(month).(*inventory.Schedule); ok {
		for _, session := range schedule.Sessions {
			if session.When.Start.Equal(d.Start.Start) {
				return out, inventory.Refuse("the schedule has a session at that time", "undo that one first if it moved")
			}
		}
	}
	out.record(d.Start, &inventory.Session{Game: d.Game, Opponent: d.Opponent, Away: d.Away, Note: d.Note, Month: month})
	return out, nil
}
