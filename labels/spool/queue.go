package spool

import (
	"context"
	"errors"
	"fmt"
	"os/exec"
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

// Cause is what stands between a document and the paper.
type Cause string

// The causes.
const (
	NoCUPS   Cause = "no-cups"  // CUPS is not installed, or does not answer
	NoQueue  Cause = "no-queue" // there is no such queue
	Stopped  Cause = "stopped"  // the queue is stopped
	Refusing Cause = "refusing" // the queue takes no jobs
	Unclear  Cause = "unclear"  // CUPS said something else
)

// Refused says that a queue did not take a document.
type Refused struct {
	Queue  string
	Cause  Cause
	Detail string // what CUPS said, or empty
}

func (r *Refused) Error() string {
	reason := map[Cause]string{
		NoCUPS:   "the print system (CUPS) does not answer",
		NoQueue:  fmt.Sprintf("there is no print queue %s on this machine", r.Queue),
		Stopped:  fmt.Sprintf("print queue %s is stopped", r.Queue),
		Refusing: fmt.Sprintf("print queue %s takes no jobs", r.Queue),
		Unclear:  fmt.Sprintf("print queue %s did not take the tags", r.Queue),
	}[r.Cause]
	if r.Detail == "" {
		return reason
	}
	return reason + ": " + r.Detail
}

// Remedy is what to do about it.
func (r *Refused) Remedy() string {
	switch r.Cause {
	case NoCUPS:
		return "install or start CUPS, or write a file with --out"
	case NoQueue:
		return "name one that lpstat -e lists: steeltally printer add"
	case Stopped:
		return "look at paper, cover and cable; cupsenable " + r.Queue
	case Refusing:
		return "cupsaccept " + r.Queue
	}
	return "lpstat -p " + r.Queue + " says how it is"
}

// refusedBy makes an error of what one of CUPS's commands said as it failed.
func refusedBy(queue, said string, err error) error {
	said = oneLine(said)
	has := func(words ...string) bool {
		for _, word := range words {
			if strings.Contains(said, word) {
				return true
			}
		}
		return false
	}
	switch {
	case errors.Is(err, exec.ErrNotFound):
		return &Refused{queue, NoCUPS, "its command lp is not installed"}
	case errors.Is(err, context.DeadlineExceeded):
		return &Refused{queue, NoCUPS, fmt.Sprintf("nothing within %s", patience)}
	case errors.Is(err, context.Canceled):
		return err
	case has("not accepting", "rejecting jobs"):
		return &Refused{queue, Refusing, ""}
	case has("does not exist", "Invalid destination", "Unknown destination", "no longer exists"):
		return &Refused{queue, NoQueue, ""}
	case has("scheduler not responding", "Unable to connect", "Connection refused", "No such file or directory", "Bad file descriptor"):
		return &Refused{queue, NoCUPS, said}
	}
	return &Refused{queue, Unclear, said}
}
