package station

import (
	"encoding/json"
	"strings"
	"sync"
	"testing"
	"time"

	"steeltally/cmd/steeltally/internal/jig"
)

// TestALineThatIsSentTwiceAtOnce, as by a page that is loaded anew while it waits for an
// answer, is done once, and nothing is asked about what it did itself.
func TestALineThatIsSentTwiceAtOnce(t *testing.T) {
	s := newStand(t)
	const lines = 60
	for i := range lines {
		s.now = s.now.Add(2 * time.Minute)
		body, err := json.Marshal(asked{Key: "line " + numeral(i), Line: "17", Talk: talk{State: jig.State{Grinding: true}}})
		must(t, err)
		var pages sync.WaitGroup
		for range 3 {
			pages.Go(func() {
				if text, status := s.send("/line", body); status != 200 || !strings.Contains(string(text), `"tone":"done"`) {
					t.Errorf("%d: %.300s", status, text)
				}
			})
		}
		pages.Wait()
	}
	if got := s.kind("grind"); got != lines {
		t.Errorf("%d grinds of %d lines", got, lines)
	}
}
