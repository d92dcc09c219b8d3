package cli

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"net"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strconv"
	"syscall"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/cmd/steeltally/internal/station"
	"steeltally/inventory"
)

// usualPort is where the screen is found unless told; a page that is open finds the
// program there again after a loss of power.
const usualPort = 7147

func (a *app) stationVerb() *cobra.Command {
	var port int
	var printer string
	var closed bool
	cmd := &cobra.Command{
		Use: "station", Short: "the screen beside the jig, in a browser on this machine", GroupID: groupDay,
		Long: `Serve the screen beside the jig to a browser on this machine, and print the link that
opens it: once, for a minute. Enter, or steeltally station once more, opens another
window, and the screen again after this program was started anew. Nothing leaves the
machine. A hand scanner, a caliper that types and the
keyboard work on it as in steeltally scan.

The book is held only while something is under way: command lines on the same book go
on working, and the screen shows what they record.

Tags of changed steel go to the printer named with --print; without one they come as a
PDF from the screen.` + "\n" + cautions,
		Example: "  steeltally station\n  steeltally station --print bench --by Runa",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if a.json || a.at != "" || a.key != "" {
				return usage("the station talks to a person, about now: leave --json, --at and --key out")
			}
			return a.station(cmd.Context(), port, printer, closed)
		},
	}
	cmd.Flags().IntVar(&port, "port", usualPort, "the port of this machine; 0 is any that is free")
	cmd.Flags().StringVar(&printer, "print", "", "the printer that tags of changed steel go to; steeltally printer list shows them")
	cmd.Flags().BoolVar(&closed, "no-open", false, "do not open a browser")
	return cmd
}

func (a *app) station(ctx context.Context, port int, printer string, closed bool) error {
	// A book that is not there, or damaged, is said here and not on a screen.
	if err := a.reading(func(*desk.Desk) error { return nil }); err != nil {
		return err
	}
	o, err := a.stationOptions(printer)
	if err != nil {
		return err
	}
	listener, err := net.Listen("tcp", fmt.Sprintf("127.0.0.1:%d", port))
	if errors.Is(err, syscall.EADDRINUSE) {
		return a.stationAgain(o, port, closed)
	}
	if err != nil {
		return fmt.Errorf("the screen can't be served: %w", err)
	}
	s := station.New(o, listener.Addr())
	shut, err := s.OpenDoor()
	defer shut()
	if err != nil {
		a.voice.notice(inventory.Notice{Text: "no browser can be opened from here: " + err.Error(), Hint: "open the link in a browser on this machine"})
	}
	again := "steeltally station once more gives a new one"
	if a.world.Interactive {
		again = "Enter gives a new one"
	}
	a.letIn(s.Offer(), again, closed)
	if a.world.Interactive {
		signal.Ignore(syscall.SIGTTIN) // in the background, reading keys ends and the screen stays
		go a.letInAgain(s, again, closed)
	}
	return s.Serve(ctx, listener)
}

// stationAgain opens the screen of the station that runs already.
func (a *app) stationAgain(o station.Options, port int, closed bool) error {
	offer, err := station.Ask(o.Desk.Machine, strconv.Itoa(port))
	if err != nil {
		return usage("port %d is taken, and no station of yours is there: --port 0 takes another", port)
	}
	if book, err := filepath.Abs(o.Desk.Book); err != nil || book != offer.Book {
		return usage("the station at port %d shows the book %s: --port 0 takes another port", port, offer.Book)
	}
	a.voice.notice(inventory.Notice{Text: "the station runs already, as it was started: this opens its screen"})
	a.letIn(offer, "steeltally station once more gives a new one", closed)
	return nil
}

// letIn shows a way in, says how one gets another, and opens it in a browser.
func (a *app) letIn(offer station.Offer, again string, closed bool) {
	a.voice.say("%s", offer.Link)
	a.voice.notice(inventory.Notice{Text: "this link opens the screen once, in a browser on this machine, within a minute", Hint: again})
	if !closed && offer.Page != "" {
		a.openBrowser(offer.Address())
	}
}

// letInAgain gives a new way in at each press of Enter.
func (a *app) letInAgain(s *station.Station, again string, closed bool) {
	for keys := bufio.NewScanner(a.world.Stdin); keys.Scan(); {
		if keys.Text() == "" {
			a.letIn(s.Offer(), again, closed)
			continue
		}
		a.voice.notice(inventory.Notice{Text: "this is not the screen: nothing was recorded of " + inventory.Visible(keys.Text()), Hint: "press Enter: that opens the screen; scan there"})
	}
}

func (a *app) stationOptions(printer string) (station.Options, error) {
	o := station.Options{Desk: a.options(), Printer: printer}
	if printer != "" {
		if err := desk.CheckPrinter(o.Desk, printer); err != nil {
			return o, err
		}
	}
	return o, nil
}

// openBrowser is a convenience: where it fails, the link stands on the screen. It tells a
// browser of a page on this disk, since everybody on the machine reads what programs are
// started with.
func (a *app) openBrowser(page string) {
	const opener = "xdg-open"
	if a.world.Getenv("DISPLAY") == "" && a.world.Getenv("WAYLAND_DISPLAY") == "" {
		return
	}
	browser := exec.Command(opener, page)
	if err := browser.Start(); err != nil {
		a.voice.say("open that link in a browser on this machine")
		return
	}
	go browser.Wait()
}
