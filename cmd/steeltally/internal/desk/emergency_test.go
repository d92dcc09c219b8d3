package desk

import (
	"errors"
	"fmt"
	"sync"
	"testing"
	"time"

	"steeltally/inventory"
)

// However many windows are told of one breakage at once, it is one emergency.
func TestOneBreakageIsOneEmergency(t *testing.T) {
	const players, windows = 8, 4
	s := newSeason(t, players)
	d, err := Open(Options{Book: s.path, Now: func() time.Time { return theNow }})
	if err != nil {
		t.Fatal(err)
	}
	defer func() {
		if err := d.Close(); err != nil {
			t.Error(err)
		}
	}()
	for player := range players {
		var all sync.WaitGroup
		errs, recorded := make([]error, windows), make([]int, windows)
		for window := range windows {
			all.Go(func() {
				own := d.For(fmt.Sprintf("window-%d-%d", player, window), "")
				rescue, done, err := own.Emergency(Alarm{Who: fmt.Sprint(2 + player), Side: inventory.Right})
				if err == nil && (rescue.Since.IsZero() || len(rescue.Unsafe) == 0) {
					err = fmt.Errorf("told %+v", rescue)
				}
				errs[window], recorded[window] = err, len(done.Events)
			})
		}
		all.Wait()
		if err := errors.Join(errs...); err != nil {
			t.Fatal(err)
		}
		sum := 0
		for _, events := range recorded {
			sum += events
		}
		if sum != 1 {
			t.Errorf("player %d: %v emergencies were recorded", 2+player, recorded)
		}
	}
}
