// Package spool hands tags to a printer through CUPS, and keeps what belongs to a
// machine and not to a record: its printers, how far each prints off its mark, and
// where part-used sheets go on.
package spool

import (
	"bytes"
	"context"
	"errors"
	"io"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"time"

	"steeltally/geometry"
)

// Spooler speaks to CUPS by its own commands. The zero Spooler speaks to the server
// that this machine is set to.
type Spooler struct {
	Server string // host:port; empty: as CUPS itself is set (CUPS_SERVER, client.conf)
}

// Job is a document for a queue.
type Job struct {
	Queue         string
	Title         string              // as it shall stand in the list of jobs
	Width, Height geometry.Millimetre // of the medium
}

// patience is how long the print system may take for an answer.
const patience = 20 * time.Second

// Submit hands a PDF to a queue, to be printed at its own size, and gives the number
// that CUPS gave the job, such as "bench-12". That the queue has it does not mean that
// it is on paper yet. Whatever stands in the way is a *Refused error: then the queue
// has nothing, since a queue that is stopped or takes no jobs is not tried.
func (s Spooler) Submit(ctx context.Context, job Job, document io.Reader) (string, error) {
	if err := s.Ready(ctx, job.Queue); err != nil {
		return "", err
	}
	said, err := s.run(ctx, document, "lp", s.to("-d", job.Queue, "-t", job.Title,
		"-o", "media="+Media(job.Width, job.Height), "-o", "print-scaling=none", "-o", "position=top-left")...)
	if err != nil {
		return "", s.explained(ctx, refusedBy(job.Queue, said, err))
	}
	number := requestID.FindStringSubmatch(said)
	if number == nil {
		return "", &Refused{job.Queue, Unclear, "lp said " + oneLine(said)}
	}
	return number[1], nil
}

// requestID is how lp tells a job's number: "request id is bench-12 (1 file(s))".
var requestID = regexp.MustCompile(`request id is (\S+)`)

// to puts the server before a command's own arguments.
func (s Spooler) to(arguments ...string) []string {
	if s.Server == "" {
		return arguments
	}
	return append([]string{"-h", s.Server}, arguments...)
}

// run runs one of CUPS's commands and gives what it said, errors included, in English.
func (s Spooler) run(ctx context.Context, input io.Reader, name string, arguments ...string) (string, error) {
	ctx, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	command := exec.CommandContext(ctx, name, arguments...)
	command.Env = append(os.Environ(), "LC_ALL=C", "LANGUAGE=C")
	command.Stdin = input
	var said bytes.Buffer
	command.Stdout, command.Stderr = &said, &said
	err := command.Run()
	if ctx.Err() != nil && errors.Is(ctx.Err(), context.DeadlineExceeded) {
		err = ctx.Err()
	}
	return said.String(), err
}

// oneLine makes what a command said fit into an error.
func oneLine(said string) string { return strings.Join(strings.Fields(said), " ") }
