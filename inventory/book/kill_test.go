package book_test

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

func child(job, dir string) *exec.Cmd {
	cmd := exec.Command(os.Args[0], dir)
	cmd.Env = append(os.Environ(), childJob+"="+job)
	cmd.Stderr = os.Stderr
	return cmd
}

// killed runs an appender until it is killed some time after so many
// acknowledgements, and lists what it acknowledged.
func killed(t *testing.T, dir string, enough int, after time.Duration) []string {
	t.Helper()
	cmd := child("append", dir)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	var acknowledged []string
	said := bufio.NewScanner(out)
	for said.Scan() {
		if acknowledged = append(acknowledged, said.Text()); len(acknowledged) == enough {
			time.AfterFunc(after, func() { _ = cmd.Process.Kill() })
		}
	}
	_ = cmd.Wait() // it was killed
	return acknowledged
}

// checkAcknowledged tells whether every acknowledged action is in the book, whole.
func checkAcknowledged(t *testing.T, b *book.Book, acknowledged []string) {
	t.Helper()
	for _, line := range acknowledged {
		var ticket string
		var count int
		if _, err := fmt.Sscan(line, &ticket, &count); err != nil {
			continue // the kill came amid the line: nothing was said
		}
		stamp := booktest.Stamp()
		stamp.Ticket = ticket
		events, err := b.Record(stamp, func(inventory.View) ([]inventory.Draft, error) { return nil, nil })
		if err != nil || len(events) != count {
			t.Fatalf("action %s: acknowledged with %d events, found with %d: %v", ticket, count, len(events), err)
		}
	}
}

func TestNoKillLosesAnAcknowledgedEvent(t *testing.T) {
	t.Parallel()
	dir := booktest.Make(t)
	kills, acknowledged, unfinished, events := times(1000), 0, 0, uint64(0)
	for range kills {
		said := killed(t, dir, 1+rand.IntN(5), time.Duration(rand.IntN(3000))*time.Microsecond)
		acknowledged += len(said)
		report, err := book.VerifyHere(dir, "the test")
		if err != nil || !report.OK {
			t.Fatal(err, report.Problems)
		}
		if len(report.Notes) > 0 {
			unfinished++
		}
		b, err := book.Open(dir, book.Options{})
		if err != nil {
			t.Fatal(err)
		}
		checkAcknowledged(t, b, said)
		counts, err := b.Counts()
		if err != nil || counts.Events < events {
			t.Fatal(counts.Events, events, err)
		}
		events = counts.Events
		if err := b.Close(); err != nil {
			t.Fatal(err)
		}
	}
	t.Logf("%d kills, %d actions acknowledged, none lost; %d kills left something unfinished", kills, acknowledged, unfinished)
	if acknowledged < 2*kills || unfinished == 0 {
		t.Errorf("the kills came too early or between all writes, and prove nothing: %d actions, %d unfinished", acknowledged, unfinished)
	}
	booktest.Check(t, dir)
}

func TestVerifyInAChild(t *testing.T) {
	dir := booktest.Make(t)
	t.Setenv(childJob, "verify")
	report, err := book.Verify(t.Context(), os.Args[0], dir)
	if err != nil || !report.OK || report.Events != 1 {
		t.Errorf("%+v, %v", report, err)
	}
	_, err = book.Verify(t.Context(), os.Args[0], dir+"-absent")
	if err == nil || !strings.Contains(err.Error(), "there is no book") {
		t.Errorf("an absent book: %v", err)
	}
}
