package cli

import (
	"context"
	"errors"
	"fmt"
	"net"
	"os"
	"os/exec"
	"syscall"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/cmd/steeltally/internal/station"
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
opens it. Nothing leaves the machine. A hand scanner, a caliper that types and the
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
	if err != nil {
		if errors.Is(err, syscall.EADDRINUSE) {
			return usage("port %d is taken: a station may be running already; --port 0 takes another", port)
		}
		return fmt.Errorf("the screen can't be served: %w", err)
	}
	s := station.New(o, listener.Addr())
	a.voice.say("%s", s.Link())
	if !closed {
		a.openBrowser(s.Link())
	}
	return s.Serve(ctx, listener)
}

func (a *app) stationOptions(printer string) (station.Options, error) {
	o := station.Options{Desk: a.options(), Printer: printer}
	if printer != "" {
		if err := desk.CheckPrinter(o.Desk, printer); err != nil {
			return o, err
		}
	}
	return o, o.Unlock()
}

// openBrowser is a convenience: where it fails, the link stands on the screen.
func (a *app) openBrowser(link string) {
	const opener = "xdg-open"
	if os.Getenv("DISPLAY") == "" && os.Getenv("WAYLAND_DISPLAY") == "" {
		return
	}
	if err := exec.Command(opener, link).Start(); err != nil {
		a.voice.say("open that link in a browser on this machine")
	}
}
