package station

import (
	"net/http"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// recovering answers in plain words where the program itself is at fault, and goes on. What
// is done with the book recovers in shared.use, so that a window keeps what it remembers.
func (s *Station) recovering(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		err := inventory.Guard(func() error {
			next.ServeHTTP(w, r)
			return nil
		})
		if err = desk.KeepFault(s.options.Desk, "the station, "+r.Method+" "+r.URL.Path, err); err != nil {
			fail(w, err)
		}
	})
}
