package spool

import (
	"context"
	"errors"
	"strings"
)

// Ready tells whether a queue is there, runs and takes jobs; else it is a *Refused
// error that says which of these fails.
func (s Spooler) Ready(ctx context.Context, queue string) error {
	said, err := s.run(ctx, nil, "lpstat", s.to("-p", queue, "-a", queue)...)
	if err != nil {
		return s.explained(ctx, refusedBy(queue, said, err))
	}
	return stateIn(queue, said)
}

// explained tells a queue that is not there from a server that does not answer: CUPS's
// commands say the same of both.
func (s Spooler) explained(ctx context.Context, err error) error {
	var refused *Refused
	if !errors.As(err, &refused) || refused.Cause != NoQueue {
		return err
	}
	said, failed := s.run(ctx, nil, "lpstat", s.to("-r")...)
	if failed != nil || strings.Contains(said, "not running") {
		return &Refused{refused.Queue, NoCUPS, ""}
	}
	return err
}

// stateIn reads what lpstat says of a queue, such as
//
//	bench not accepting requests since Thu Nov 27 … -
//		Rejecting Jobs
//	printer bench disabled since Thu Nov 27 … -
//		out of paper
func stateIn(queue, said string) error {
	lines := strings.Split(said, "\n")
	known := false
	for i, line := range lines {
		switch {
		case strings.HasPrefix(line, queue+" not accepting"):
			return &Refused{queue, Refusing, reasonUnder(lines[i:])}
		case strings.HasPrefix(line, "printer "+queue+" disabled"):
			return &Refused{queue, Stopped, reasonUnder(lines[i:])}
		case strings.HasPrefix(line, "printer "+queue+" "):
			known = true
		}
	}
	if !known {
		return &Refused{queue, Unclear, oneLine(said)}
	}
	return nil
}

// reasonUnder is the indented line below the first, which says why; lpstat writes
// "reason unknown" and the like where nobody said.
func reasonUnder(lines []string) string {
	if len(lines) < 2 || !strings.HasPrefix(lines[1], "\t") {
		return ""
	}
	switch reason := strings.TrimSpace(lines[1]); reason {
	case "reason unknown", "Paused", "Rejecting Jobs":
		return ""
	default:
		return reason
	}
}
