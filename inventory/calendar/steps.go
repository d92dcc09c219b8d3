package calendar

import "errors"

// mostSteps bounds the work that a file can ask for. A season of a club's practices
// takes some ten thousand; the largest number of steps some seconds.
const mostSteps = 5_000_000

var errTooMuch = errors.New("its rules stand for more than can be followed: export a shorter time")

// steps counts the work that a file asks for.
type steps struct{ taken int }

// take counts some steps; an error where they are too many.
func (s *steps) take(n int) error {
	if s.taken += n; s.taken > mostSteps {
		return errTooMuch
	}
	return nil
}
