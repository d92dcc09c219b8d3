package desk

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/deeds"
	"steeltally/inventory/standing"
)

// Init makes a book for a club.
func Init(o Options, club deeds.FoundClub) error {
	now := o.Now()
	happened := inventory.At(now)
	zone, err := zoneNamed(club.Zone)
	if err != nil {
		return err
	}
	if o.At != "" {
		if happened, err = inventory.ParseWhen(o.At, zone); err != nil {
			return &inventory.BadValue{Reason: err.Error()}
		}
	}
	m, err := deeds.NewMoment(happened, now)
	if err != nil {
		return err
	}
	outcome, err := club.Decide(&inventory.Ledger{}, m)
	if err != nil {
		return err
	}
	if err := book.Create(o.Book, book.Stamp{Who: o.Who, Noted: now}, outcome.Drafts); err != nil {
		return err
	}
	o.stands("the book is made: it is in %s", o.Book)
	return nil
}

func zoneNamed(name string) (*time.Location, error) {
	zone, err := time.LoadLocation(name)
	if err != nil || name == "" || name == "Local" { // the last two are no zone's name
		return nil, inventory.RefuseValue(fmt.Sprintf("time zone %s is not known", name), "write it as Europe/Oslo or America/Toronto")
	}
	return zone, nil
}

// Club is whose book it is, and which station's numbers this folder gives.
type Club struct {
	Name    string `json:"club"`
	Zone    string `json:"zone"`
	Station *int   `json:"station"` // nil: not known, in a copy of a book of several stations
	Digits  []int  `json:"digits"`  // of all folders that gave numbers in the record
}

// Club tells whose book it is.
func (d *Desk) Club() (said Club, err error) {
	err = d.book.Read(func(v inventory.View) error {
		club := inventory.ClubOf(v)
		said = Club{Name: club.Name, Zone: club.Zone, Digits: club.Digits()}
		if station := club.StationOf(v.Writer()); station.Known {
			said.Station = &station.Digit
		}
		return nil
	})
	return said, err
}

// KnownAs is what a club's record is known by to who comes again, and whether it is that of
// who was told so before. Every copy of the record has the writers that it began with.
func (d *Desk) KnownAs(before inventory.Writer) (now inventory.Writer, same bool, err error) {
	err = d.book.Read(func(v inventory.View) error {
		for _, digit := range inventory.ClubOf(v).Stations {
			now = cmp.Or(now, digit.Writer)
			same = same || digit.Writer == before
		}
		return nil
	})
	return now, same || before == "", err
}

// ChangeClub changes what is said of the club, or this folder's digit.
func (d *Desk) ChangeClub(change deeds.ChangeClub) (Done, error) {
	if change.Zone != nil {
		if _, err := zoneNamed(*change.Zone); err != nil {
			return Done{}, err
		}
	}
	return d.do(change)
}

// AddPlayer adds a player and gives his number.
func (d *Desk) AddPlayer(deed deeds.AddPlayer) (inventory.Number, Done, error) {
	done, err := d.do(deed)
	return made(done, func(b *inventory.PlayerNoted) inventory.Number { return b.Player }), done, err
}

// made is the number that the first event of a type gave.
func made[B inventory.Body](done Done, number func(B) inventory.Number) inventory.Number {
	for i := range done.Events {
		if body, ok := done.Events[i].Body.(B); ok {
			return number(body)
		}
	}
	return 0
}

// ChangePlayer changes what is said of a player.
func (d *Desk) ChangePlayer(player string, change deeds.ChangePlayer) (Done, error) {
	return d.act(func(v inventory.View, m deeds.Moment) (_ deeds.Deed, err error) {
		change.Player, err = resolvePlayer(v, player, d.Instant())
		return change, err
	})
}

// WoreSweater says what sweater a player wore in an earlier season.
func (d *Desk) WoreSweater(player string, sweater int, season string) (Done, error) {
	then, err := inventory.ParseDate(season, nil, d.options.Now(), d.zone)
	if err != nil {
		return Done{}, err
	}
	return d.act(func(v inventory.View, m deeds.Moment) (deeds.Deed, error) {
		number, err := resolvePlayer(v, player, d.Instant())
		return deeds.WoreSweater{Player: number, Sweater: sweater, Then: then}, err
	})
}

// NoteSpecs says how a player's steel shall be.
func (d *Desk) NoteSpecs(player string, specs inventory.Specs) (Done, error) {
	return d.act(func(v inventory.View, m deeds.Moment) (deeds.Deed, error) {
		number, err := resolvePlayer(v, player, d.Instant())
		return deeds.NoteSpecs{Player: number, Specs: specs}, err
	})
}

// PlayerLine is a player in a list.
type PlayerLine struct {
	Number   inventory.Number `json:"number"`
	Sweater  int              `json:"sweater,omitempty"`
	Name     string           `json:"name"`
	Position string           `json:"position"`
	Specs    string           `json:"specs"`
	On       string           `json:"set_on,omitempty"` // letter
}

// Players lists the club's players in sweater order.
func (d *Desk) Players() ([]PlayerLine, error) {
	lines := []PlayerLine{}
	err := d.ask(func(v inventory.View, at time.Time) error {
		for _, member := range inventory.RosterOf(v).Members {
			player, err := inventory.PlayerOf(v, member.Player)
			if err != nil || player.Gone {
				continue
			}
			specs := player.SpecsAt(at)
			lines = append(lines, PlayerLine{
				player.Number, player.Sweater(at), player.Name, player.Position, specs.String(), letterOn(v, player, at),
			})
		}
		return nil
	})
	slices.SortStableFunc(lines, func(a, b PlayerLine) int { return cmp.Compare(a.Sweater, b.Sweater) })
	return lines, err
}

// letterOn is the letter of the set that is on the pair that a player skates on.
func letterOn(v inventory.View, player *inventory.Player, at time.Time) string {
	pair, err := standing.SkatesOn(v, player, at)
	if err != nil {
		return ""
	}
	set, err := inventory.FindSet(v, pair.SetAt(at))
	if err != nil {
		return ""
	}
	return set.Letter
}
