package station

import (
	"sync"
	"sync/atomic"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
)

// foresight keeps what was learnt from all of the club's steel, and learns anew in the
// background when the record has grown.
type foresight struct {
	book    *shared
	options desk.Options
	mutex   sync.Mutex
	latest  atomic.Pointer[desk.Outlook]
	mark    string    // of the record that it was learnt from
	day     time.Time // on which
}

func newForesight(o desk.Options) *foresight { return &foresight{options: o} }

// now gives what is known of the record as it stands, and learns it where need be.
func (f *foresight) now() (*desk.Outlook, error) {
	f.mutex.Lock()
	defer f.mutex.Unlock()
	mark, day := desk.Mark(f.options), f.options.Now().Truncate(24*time.Hour)
	if latest := f.latest.Load(); latest != nil && f.mark == mark && f.day.Equal(day) {
		return latest, nil
	}
	var learning desk.Learning
	for !learning.Read() { // in as many turns as it takes where others wait
		if err := f.book.use("", func(d *desk.Desk) error { return d.Learn(&learning) }); err != nil {
			return f.latest.Load(), err
		}
	}
	latest, err := learning.Outlook()
	if err == nil {
		f.latest.Store(latest)
		f.options.Known.Keep(latest.Learnt, mark)
		f.mark, f.day = mark, day
	}
	return f.latest.Load(), err
}

// atHand gives what was learnt last, without waiting for more; nil where nothing was.
func (f *foresight) atHand() *desk.Outlook { return f.latest.Load() }
