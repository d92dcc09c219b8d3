package desk

import (
	"runtime"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/outlook"
	"steeltally/inventory/standing"
	"steeltally/inventory/wear"
)

// Outlook is what was learnt from all of the club's steel. It takes a while to learn and
// changes slowly, so that a screen keeps it.
type Outlook = outlook.Outlook

// Learnt is what was learnt of wear alone.
type Learnt = standing.Learnt

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
