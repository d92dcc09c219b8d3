package desk

import (
	"errors"
	"math"
	"runtime"
	"slices"
	"sync"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/outlook"
	"steeltally/inventory/sparepair"
	"steeltally/inventory/standing"
	"steeltally/inventory/wear"
)

// Outlook is what was learnt from all of the club's steel. It takes a while to learn and
// changes slowly, so that a screen keeps it.
type Outlook = outlook.Outlook

// Learning is a look at all of the club's steel. Reading it takes a while, so that it can
// be broken off where another program waits for the book, and gone on with later.
type Learning struct {
	at       time.Time
	begun    bool
	schedule outlook.Schedule
	roster   []inventory.Member
	players  []inventory.Number
	read     int // of the players
	members  []*standing.Member
	unread   []inventory.Unworked // players who could not be read
}

// Read tells whether all is read.
func (l *Learning) Read() bool { return l.begun && l.read == len(l.players) }

// Outlook learns from what was read, without the book.
func (l *Learning) Outlook() (*Outlook, error) {
	learnt, err := l.learnt()
	if err != nil {
		return nil, err
	}
	return outlook.Look(learnt, l.schedule, wear.Defaults()), nil
}

func (l *Learning) learnt() (*standing.Learnt, error) {
	return standing.Learn(l.members, l.at, wear.Defaults(), l.unread...)
}

// Learn reads on until all is read or another program waits for the book; some of it is
// read in any case.
func (d *Desk) Learn(l *Learning) error {
	for first := true; !l.Read() && (first || !d.Wanted()); first = false {
		if err := d.learnMore(l, runtime.GOMAXPROCS(0)); err != nil {
			return err
		}
	}
	return nil
}

// learnMore reads the steel of some players more.
func (d *Desk) learnMore(l *Learning, most int) error {
	if !l.begun {
		if err := d.beginLearning(l); err != nil {
			return err
		}
	}
	next := l.players[l.read:]
	next = next[:min(most, len(next))]
	members, unread, err := d.gather(next, l.at)
	if err != nil {
		return err
	}
	for i := range unread {
		unread[i].Name, unread[i].Sweater = calledIn(l.roster, unread[i].About, l.at)
	}
	l.read, l.members, l.unread = l.read+len(next), append(l.members, members...), append(l.unread, unread...)
	return nil
}

func (d *Desk) beginLearning(l *Learning) error {
	if l.at.IsZero() {
		l.at = d.Instant()
	}
	return d.book.Read(func(v inventory.View) error {
		l.schedule = outlook.ReadSchedule(v, l.at)
		l.roster = inventory.RosterOf(v).Members
		l.players = standing.Whom(l.roster)
		l.begun = true
		return nil
	})
}

// learnt is what the club's steel teaches of wear, at an instant or not long before.
func (d *Desk) learnt(at time.Time) (*standing.Learnt, error) {
	if learnt := d.options.Known.still(d.options, at); learnt != nil {
		return learnt, nil
	}
	mark := Mark(d.options) // before it is read
	l := Learning{at: at}
	if err := d.learnMore(&l, math.MaxInt); err != nil {
		return nil, err
	}
	learnt, err := l.learnt()
	if err == nil {
		d.options.Known.Keep(learnt, mark)
	}
	return learnt, err
}

// Known keeps what was learnt of wear, with the mark of the record that it holds for.
type Known struct {
	mutex  sync.Mutex
	learnt *standing.Learnt
	mark   string
}

// Keep keeps what was learnt from the record that had a mark.
func (k *Known) Keep(learnt *standing.Learnt, mark string) {
	k.mutex.Lock()
	defer k.mutex.Unlock()
	k.learnt, k.mark = learnt, mark
}

// knownFor is how long nothing is learnt anew of a record that did not change.
const knownFor = 6 * time.Hour

// still is what is known, where it would be learnt again: nothing came to the record since
// but grinds, whose passes come after all that was measured. Else it is nil.
func (k *Known) still(o Options, at time.Time) *standing.Learnt {
	k.mutex.Lock()
	defer k.mutex.Unlock()
	if k.learnt == nil || k.learnt.At.Sub(at).Abs() >= knownFor {
		return nil
	}
	mark := Mark(o)
	added, ok := book.Added(o.Book, k.mark)
	if !ok || slices.ContainsFunc(added, teaches) {
		return nil
	}
	k.mark = mark // what was looked through is not read again
	return k.learnt
}

// teaches tells whether an entry may change what is learnt of wear. Only a grind whose
// passes are known, noted as it was done, does not.
func teaches(e inventory.Event) bool {
	ground, ok := e.Body.(*inventory.Ground)
	if !ok || !e.Happened.Exact() || e.Noted.Sub(e.Happened.Start).Abs() > time.Minute {
		return true
	}
	for _, passes := range ground.Each {
		if passes.Passes == nil {
			return true
		}
	}
	return false
}

// look learns from the club's steel as it was at an instant.
func (d *Desk) look(at time.Time) (*outlook.Outlook, error) {
	l := Learning{at: at}
	if err := d.learnMore(&l, math.MaxInt); err != nil {
		return nil, err
	}
	return l.Outlook()
}

// calledIn is what the roster calls a player.
func calledIn(members []inventory.Member, player inventory.Number, at time.Time) (name string, sweater int) {
	for _, m := range members {
		if m.Player == player {
			sweater, _ = m.Sweaters.At(at)
			return m.Name, sweater
		}
	}
	return "", 0
}

// gather reads the players' steel, a share of it on each processor: reading states
// takes most of a look. It tells whose could not be read.
func (d *Desk) gather(players []inventory.Number, at time.Time) ([]*standing.Member, []inventory.Unworked, error) {
	members := make([]*standing.Member, len(players))
	failed := make([]error, len(players))
	aside := d.unsafeAsides().damages()
	shares := max(1, min(runtime.GOMAXPROCS(0), len(players)))
	errs := make([]error, shares)
	var readers sync.WaitGroup
	for share := range shares {
		readers.Go(func() {
			errs[share] = d.book.Read(func(v inventory.View) error {
				for i := share; i < len(players); i += shares {
					failed[i] = inventory.Guard(func() (err error) {
						members[i], err = standing.Gather(inventory.Suspecting(v, aside), players[i], at)
						return err
					})
				}
				return nil
			})
		})
	}
	readers.Wait()
	if err := errors.Join(errs...); err != nil {
		return nil, nil, err
	}
	var gathered []*standing.Member
	var ungathered []inventory.Unworked
	for i, err := range failed {
		if err != nil {
			ungathered = append(ungathered, inventory.Unworked{About: players[i], Cause: err})
		} else {
			gathered = append(gathered, members[i])
		}
	}
	return gathered, ungathered, nil
}

// Squad is a look at the pairs and sets of all players. Reading it takes a while, so that
// it can be broken off where another program waits for the book, and gone on with later.
type Squad struct {
	at    time.Time
	wear  *standing.Learnt
	begun bool
	left  []inventory.Number // players who are not read yet
	told  []sparepair.Player
}

// Read tells whether all is read.
func (s *Squad) Read() bool { return s.begun && len(s.left) == 0 }

// squadStep is how many players are read before it is seen who waits for the book.
const squadStep = 4

// ReadSquad reads on until all is read or another program waits for the book; some players
// are read in any case.
func (d *Desk) ReadSquad(s *Squad) error {
	for first := true; !s.Read() && (first || !d.Wanted()); first = false {
		if err := d.readNext(s); err != nil {
			return err
		}
	}
	return nil
}

func (d *Desk) readNext(s *Squad) error {
	if !s.begun {
		var err error
		if s.wear, err = d.learnt(d.Instant()); err != nil {
			return err
		}
	}
	return d.ask(func(v inventory.View, _ time.Time) error {
		if !s.begun {
			s.begun, s.at = true, d.Instant()
			for _, member := range inventory.RosterOf(v).Members {
				s.left = append(s.left, member.Player)
			}
		}
		now := standing.NewNow(v, s.at, s.wear)
		for range min(squadStep, len(s.left)) {
			s.told, s.left = sparepair.AddTo(s.told, now, s.left[0]), s.left[1:]
		}
		if s.Read() {
			sparepair.BySweater(s.told)
		}
		return nil
	})
}

// squad reads all of it.
func (d *Desk) squad() (*Squad, error) {
	var s Squad
	for !s.Read() {
		if err := d.ReadSquad(&s); err != nil {
			return nil, err
		}
	}
	return &s, nil
}

// WorstSpares tells which spare pairs of a squad travel, what is missing first.
func (d *Desk) WorstSpares(s *Squad) ([]SpareLine, error) {
	lines := []SpareLine{}
	err := d.ask(func(v inventory.View, _ time.Time) error {
		sparepair.WorstFirst(s.told)
		for i := range s.told {
			lines = append(lines, d.spareLine(v, &s.told[i], s.at))
		}
		return nil
	})
	return lines, err
}
