package station

import (
	"sync"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// shared keeps the book open while anything is under way, for all requests together, and
// lets go of it in between: a command line gets at the book at any time. What requests do
// while it is open is a turn. Once another program waits, nobody new comes into a turn: it
// ends, the other program has its own, and who came meanwhile is in the next one.
type shared struct {
	options desk.Options
	mutex   sync.Mutex
	free    *sync.Cond
	open    *desk.Desk
	tries   int // for which the book is waited for, half a second each, while a command line has it
	users   int
	turn    int  // counts the turns that were begun
	broken  bool // an outcome is not known: the book is opened anew before anything else

	busy map[string]bool // keys whose line is under way: sent again meanwhile, it finds what came of it
}

func newShared(o desk.Options) *shared {
	s := &shared{options: o, tries: patience, busy: map[string]bool{}}
	s.free = sync.NewCond(&s.mutex)
	return s
}

// use works on the open book, with the caller's own key where it records something. A
// fault of the program in that work is an error: the book is let go of all the same.
func (s *shared) use(key string, work func(*desk.Desk) error) (err error) {
	d, err := s.enter(key)
	if err != nil {
		return err
	}
	defer func() { s.leave(key, err) }()
	err = inventory.Guard(func() error { return work(d.For(key, s.options.Who)) })
	return desk.KeepFault(s.options, "the station", err)
}

// patience is how often the book is tried.
const patience = 6

func (s *shared) enter(key string) (*desk.Desk, error) {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	for came := s.turn; s.busy[key] || s.users > 0 && (s.broken || came == s.turn && s.open.Wanted()); {
		s.free.Wait()
	}
	if s.users == 0 {
		d, err := s.openNow()
		if err != nil {
			return nil, err
		}
		s.open, s.broken = d, false
		s.turn++
	}
	s.users++
	if key != "" {
		s.busy[key] = true
	}
	return s.open, nil
}

func (s *shared) openNow() (d *desk.Desk, err error) {
	for range s.tries {
		if d, err = desk.Open(s.options); desk.FailureOf(err) != desk.InUse || err == nil {
			return d, err
		}
		time.Sleep(10 * time.Millisecond)
	}
	return nil, err
}

func (s *shared) leave(key string, err error) {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	defer s.free.Broadcast()
	delete(s.busy, key)
	if err != nil && desk.FailureOf(err) == desk.Failed {
		s.broken = true
	}
	if s.users--; s.users == 0 {
		s.open.Close()
		s.open = nil
	}
}
