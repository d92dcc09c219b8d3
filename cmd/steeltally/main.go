// Command steeltally keeps the record and prints the tags of a hockey team's steel.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
	"time"
	_ "time/tzdata" // a club's time zone is known on a machine without a zone database

	"golang.org/x/term"

	"steeltally/cmd/steeltally/internal/cli"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	code := cli.Main(ctx, world(), os.Args[1:])
	stop()
	os.Exit(code)
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
	return cli.World{
		Stdin: os.Stdin, Stdout: os.Stdout, Stderr: os.Stderr, Now: time.Now, Getenv: os.Getenv,
		Interactive: term.IsTerminal(int(os.Stdin.Fd())) && term.IsTerminal(int(os.Stdout.Fd())), Self: self, Config: config,
	}
}
