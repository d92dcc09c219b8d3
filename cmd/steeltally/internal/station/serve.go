package station

import (
	"context"
	"errors"
	"net"
	"net/http"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// Limits on what one request may take. A picture of a phone has up to 20 MB.
const (
	mostLine    = 8 << 20
	mostPicture = 64 << 20
	mostHeader  = 1 << 20 // cookies of every other program at this address come along
	headerTime  = 5 * time.Second
	readTime    = 60 * time.Second
	idleTime    = 5 * time.Minute
	leaveTime   = time.Second
)

// Serve answers on a listener until the context ends, and then lets what is under way
// finish.
func (s *Station) Serve(ctx context.Context, listener net.Listener) error {
	background, stop := context.WithCancel(ctx)
	defer stop()
	server := &http.Server{
		Handler: s.Handler(), ReadHeaderTimeout: headerTime, ReadTimeout: readTime, IdleTimeout: idleTime, MaxHeaderBytes: mostHeader,
		BaseContext: func(net.Listener) context.Context { return background },
	}
	go s.watch(background)
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(listener) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	leave, cancel := context.WithTimeout(context.WithoutCancel(ctx), leaveTime)
	defer cancel()
	if err := server.Shutdown(leave); err != nil {
		server.Close()
	}
	if err := <-ended; !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}

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
