package station

import (
	"runtime"
	"slices"
	"sync"
	"testing"

	"steeltally/cmd/steeltally/internal/desk"
)

// TestACommandLineIsNextAfterATurn: while another program waits, no request comes into the
// turn that is under way, however many come; they are in the next one, all together.
func TestACommandLineIsNextAfterATurn(t *testing.T) {
	s := newStand(t)
	const late = 5
	for range 10 {
		var order []string
		var mutex sync.Mutex
		note := func(who string) {
			mutex.Lock()
			defer mutex.Unlock()
			order = append(order, who)
		}
		var all sync.WaitGroup
		err := s.station.book.use("", func(d *desk.Desk) error {
			all.Go(func() {
				other, err := desk.Open(s.options)
				if err != nil {
					t.Errorf("the command line: %v", err)
					return
				}
				note("command line")
				other.Close()
			})
			for !d.Wanted() {
				runtime.Gosched()
			}
			var came sync.WaitGroup
			came.Add(late)
			for range late {
				all.Go(func() {
					came.Done()
					if err := s.station.book.use("", func(*desk.Desk) error { note("late"); return nil }); err != nil {
						t.Errorf("a late request: %v", err)
					}
				})
			}
			came.Wait()
			for range 100 {
				runtime.Gosched()
			}
			note("first")
			return nil
		})
		must(t, err)
		all.Wait()
		if len(order) != 2+late || !slices.Equal(order[:2], []string{"first", "command line"}) {
			t.Fatalf("%v", order)
		}
	}
}

// TestTheOutlookIsLearntInTurns: who waits while all steel is looked at gets the book in
// between, and the look comes to its end.
func TestTheOutlookIsLearntInTurns(t *testing.T) {
	s := newStand(t)
	for i := range runtime.GOMAXPROCS(0) { // more than are read in one step
		must(t, s.station.book.use("", func(d *desk.Desk) error { s.addPlayer(d, 30+i); return nil }))
	}
	done := make(chan error)
	entered := make(chan bool)
	go func() {
		var learning desk.Learning
		turns := 0
		var err error
		for err == nil && !learning.Read() {
			turns++
			err = s.station.book.use("", func(d *desk.Desk) error {
				if turns == 1 {
					entered <- true
					for !d.Wanted() {
						runtime.Gosched()
					}
				}
				return d.Learn(&learning)
			})
		}
		if err == nil && turns != 2 {
			t.Errorf("read in %d turns", turns)
		}
		done <- err
	}()
	<-entered
	d, err := desk.Open(s.options)
	must(t, err)
	must(t, d.Close())
	must(t, <-done)
}
