package station

import (
	"context"
	"fmt"
	"net/http"
	"sync"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// bell tells every open window that the record has grown.
type bell struct {
	mutex   sync.Mutex
	hearing map[chan struct{}]bool
}

func newBell() *bell { return &bell{hearing: map[chan struct{}]bool{}} }

// ring never waits: a window that has not heard the last ring yet needs no second one.
func (b *bell) ring() {
	b.mutex.Lock()
	defer b.mutex.Unlock()
	for ear := range b.hearing {
		select {
		case ear <- struct{}{}:
		default:
		}
	}
}

func (b *bell) hear() (ear chan struct{}, stop func()) {
	ear = make(chan struct{}, 1)
	b.mutex.Lock()
	b.hearing[ear] = true
	b.mutex.Unlock()
	return ear, func() {
		b.mutex.Lock()
		delete(b.hearing, ear)
		b.mutex.Unlock()
	}
}

// Times of the events.
const (
	lookAgain = time.Second      // how often the record is looked at for what command lines add
	beat      = 10 * time.Second // how often a quiet line says that it is open
	writeTime = 5 * time.Second
)

// watch rings when something else than the screen has added to the record.
func (s *Station) watch(ctx context.Context) {
	tick := time.NewTicker(lookAgain)
	defer tick.Stop()
	mark := desk.Mark(s.options.Desk)
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
			err := inventory.Guard(func() error {
				if now := desk.Mark(s.options.Desk); now != mark {
					mark = now
					s.bell.ring()
				}
				return nil
			})
			desk.KeepFault(s.options.Desk, "the station's watch", err)
		}
	}
}

// events keeps a line open on which the bell is heard. With each event comes the record's
// mark, so that a window that shows it already draws nothing twice.
func (s *Station) events(w http.ResponseWriter, r *http.Request) {
	control := http.NewResponseController(w)
	w.Header().Set("Content-Type", "text/event-stream")
	ear, stop := s.bell.hear()
	defer stop()
	tick := time.NewTicker(beat)
	defer tick.Stop()
	event := "open"
	for {
		control.SetWriteDeadline(time.Now().Add(writeTime))
		if _, err := fmt.Fprintf(w, "event: %s\ndata: %s\n\n", event, desk.Mark(s.options.Desk)); err != nil || control.Flush() != nil {
			return
		}
		select {
		case <-r.Context().Done():
			return
		case <-ear:
			event = "grown"
		case <-tick.C:
			event = "beat"
		}
	}
}
