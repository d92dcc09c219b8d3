package spool

import (
	"context"
	"errors"
	"fmt"
	"os/exec"
	"strings"
)

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
