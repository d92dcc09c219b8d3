// Command steeltally keeps the record and prints the tags of a hockey team's steel.
package main

import (
	"context"
	"os"
	"os/signal"
	"runtime/debug"
	"syscall"
	"time"
	_ "time/tzdata" // a club's time zone is known on a machine without a zone database

	"golang.org/x/term"

	"steeltally/cmd/steeltally/internal/cli"
)

// Most commands are over before collecting what they let go of pays; what is long stays
// near this many bytes all the same: with the mapped book and program that is under the
// 150 MB that a season's tags may take.
const (
	collectAt   = 400 // per cent that the heap grows before it is collected
	enoughBytes = 104 << 20
)

func main() {
	debug.SetGCPercent(collectAt)
	debug.SetMemoryLimit(enoughBytes)
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	at := terminalNow()
	context.AfterFunc(ctx, func() { endSoon(at) })
	code := cli.Main(ctx, world(), os.Args[1:])
	stop()
	os.Exit(code)
}

// grace is how long what is under way has to clean up after it was told to stop. What
// was acknowledged is on disk at any moment, so nothing is lost by ending then.
const grace = 2 * time.Second

// endSoon ends what does not end by itself, such as a wait for the next scan.
func endSoon(at terminal) {
	time.Sleep(grace)
	at.restore()
	os.Exit(1)
}

// world is the real one.
func world() cli.World {
	self, err := os.Executable()
	if err != nil {
		self = os.Args[0]
	}
	config, err := os.UserConfigDir()
	if err != nil {
		config = ""
	}
	w := cli.World{
		Stdin: os.Stdin, Stdout: os.Stdout, Stderr: os.Stderr, Now: time.Now, Getenv: os.Getenv,
		Interactive: term.IsTerminal(int(os.Stdin.Fd())) && term.IsTerminal(int(os.Stdout.Fd())), Self: self, Config: config,
	}
	if term.IsTerminal(int(os.Stdin.Fd())) {
		w.Typed, w.TabEnds = time.Now, terminalNow().tabEnds
	}
	return w
}
