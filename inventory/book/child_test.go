package book_test

import (
	"encoding/json"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"testing"

	"go.uber.org/goleak"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

// full makes the long tests as long as they are meant to be; without it they take a tenth.
var full = flag.Bool("full", false, "run the long tests at full length")

func times(whole int) int {
	if *full {
		return whole
	}
	return whole / 10
}

// childJob names what a copy of the test program does instead of testing.
const childJob = "STEELTALLY_TEST_CHILD"

func TestMain(m *testing.M) {
	jobs := map[string]func(dir string) error{
		"append": appendForEver,
		"few":    appendAFew,
		"hold":   holdOpen,
		"small":  appendOnASmallDisk,
		"verify": verifyChild,
		"race":   raceChild,
	}
	if job := jobs[os.Getenv(childJob)]; job != nil {
		if err := job(os.Args[1]); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	goleak.VerifyTestMain(m)
}

// appendForEver records actions, and says the ticket of each on a line of its own once
// it is acknowledged.
func appendForEver(dir string) error {
	b, err := book.Open(dir, book.Options{Program: "appender"})
	if err != nil {
		return err
	}
	drawer := booktest.NewDrawer(rand.Uint64())
	for {
		stamp := booktest.Stamp()
		stamp.Ticket = fmt.Sprintf("%016x", rand.Uint64())
		events, err := b.Record(stamp, func(inventory.View) ([]inventory.Draft, error) { return drawer.Action(), nil })
		if err != nil {
			return err
		}
		drawer.Learn(events)
		fmt.Println(stamp.Ticket, len(events))
	}
}

const fewActions = 20

// appendAFew records some actions, and says after each that it is acknowledged.
func appendAFew(dir string) error {
	b, err := book.Open(dir, book.Options{})
	if err != nil {
		return err
	}
	for range fewActions {
		if _, err := b.Record(booktest.Stamp(), booktest.Decide); err != nil {
			return err
		}
		fmt.Println("acknowledged")
	}
	return b.Close()
}

// holdOpen keeps a book open until its input ends.
func holdOpen(dir string) error {
	b, err := book.Open(dir, book.Options{Program: "the other desk"})
	if err != nil {
		return err
	}
	fmt.Println("open")
	_, err = os.Stdin.Read(make([]byte, 1))
	_ = err // the end of input is what it waits for
	return b.Close()
}

// verifyChild writes the report of a book.
func verifyChild(dir string) error {
	report, err := book.VerifyHere(dir, "verify")
	if err != nil {
		return err
	}
	return json.NewEncoder(os.Stdout).Encode(report)
}
