// Package cli turns command lines into a person's actions and says in plain words
// what came of them.
package cli

import (
	"context"
	"errors"
	"io"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// World is what a command line runs in.
type World struct {
	Stdin       io.Reader
	Stdout      io.Writer
	Stderr      io.Writer
	Now         func() time.Time
	Getenv      func(string) string
	Interactive bool   // a person sits at a terminal and can be asked
	Self        string // the program's own file, to run a part of it in a child
	Config      string // the folder with the user's settings on this machine; empty: there is none

	Typed   func() time.Time                          // where standard input is a terminal: the clock that tells when a line came
	TabEnds func() (undo func())                      // lets a Tab end a line of the terminal; nil where there is none
	Room    func(dir string) (free uint64, err error) // free bytes on the disk; nil asks the system
}

// app is one run of the program.
type app struct {
	world World
	voice *voice
	input *lines
	book  string
	at    string
	by    string
	key   string
	json  bool
	args  []string // as they were given
	until context.Context
	heard []string // lines that came with them, from a file or the standard input
}

// Main runs one command line and gives the exit code.
func Main(ctx context.Context, world World, args []string) int {
	out := &heard{Writer: world.Stdout}
	world.Stdout = out
	a := &app{world: world, args: args, until: ctx}
	a.voice = &voice{out: world.Stdout, err: world.Stderr, json: &a.json}
	root := a.root()
	root.SetArgs(args)
	root.SetIn(world.Stdin)
	root.SetOut(world.Stdout)
	root.SetErr(world.Stderr)
	if len(args) > 0 && strings.HasPrefix(args[0], cobra.ShellCompRequestCmd) {
		offerWords(root)
	}
	var verb *cobra.Command
	err := inventory.Guard(func() (err error) {
		verb, err = root.ExecuteContextC(ctx)
		return helped(verb, err)
	})
	if err = desk.KeepFault(a.options(), "steeltally "+strings.Join(args, " "), err); err == nil || errors.Is(err, out.err) {
		err = a.voice.allHeard(out)
	}
	if err == nil {
		return exitDone
	}
	a.voice.fail(err)
	return codeOf(err)
}

const long = `Steeltally keeps the record of the steel under an ice-hockey team: it numbers every
runner, holder, set and pair, prints their tags, and tells what the record says.

A player is named by sweater or by number, and to look by three letters of a name or more,
with which an entry is asked about first; a piece by its number as the tag
shows it (R1-427-60) or as a scanner reads it (1100042760).
Heights are in mm; other lengths take a unit: 1/2in, 11ft, 2.9mm.`

const cautions = `
Grinding throws sparks and dust and leaves steel hot and sharp: wear eye protection, mind
the wheel maker's limits. A cracked runner or holder is not skated on. What this program
computes is a guide; the maker's limits and a qualified fitter decide.`

// handCautions are for work in which a hand can be hurt.
const handCautions = `
Steel is sharp, and hot from the wheel: gloves, and mind the edges. Drilling rivets out
throws chips and can slip: eye protection, and hold the boot fast. The maker's
instructions come first; leave what you are not sure of to a qualified fitter.`

func (a *app) root() *cobra.Command {
	root := &cobra.Command{
		Use: "steeltally", Short: "the record and the tags of a team's steel", Long: long + "\n" + cautions,
		SilenceErrors: true, SilenceUsage: true, Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return cmd.Help() }, PersistentPreRunE: a.streams,
	}
	root.SetFlagErrorFunc(func(_ *cobra.Command, err error) error { return &usageError{err} })
	flags := root.PersistentFlags()
	flags.StringVar(&a.book, "book", "", "the book's folder (or STEELTALLY_BOOK; else ./book)")
	flags.StringVar(&a.at, "at", "", "when it happened, or the instant asked about: 2025-11-04T09:00, 2025-11, unknown")
	flags.StringVar(&a.by, "by", "", "who writes this down")
	flags.StringVar(&a.key, "key", "", "your own key for this entry: given twice, it is recorded once; with another one it is refused")
	flags.BoolVar(&a.json, "json", false, "one JSON object for programs")
	root.AddGroup(
		&cobra.Group{ID: groupDay, Title: "At the jig:"},
		&cobra.Group{ID: groupStock, Title: "Players and pieces:"},
		&cobra.Group{ID: groupAsk, Title: "What the record says:"},
		&cobra.Group{ID: groupBook, Title: "The book:"},
	)
	a.addVerbs(root)
	a.addTravelVerbs(root)
	refuseUnknown(root)
	root.SetHelpCommand(helpVerb(root))
	return root
}

const (
	groupDay   = "day"
	groupStock = "stock"
	groupAsk   = "ask"
	groupBook  = "book"
)

func (a *app) addVerbs(root *cobra.Command) {
	root.AddCommand(
		a.scanVerb(), a.stationVerb(), a.grindVerb(), a.changeVerb(), a.inVerb(), a.outVerb(), a.measureVerb(),
		a.damageVerb(), a.refuseVerb(), a.inspectVerb(), a.putVerb(), a.foundVerb(), a.undoVerb(),
		a.playerVerb(), a.specsVerb(), a.pairVerb(), a.setVerb(), a.modelVerb(), a.stockinVerb(), a.rivetVerb(), a.gameVerb(),
		a.tagVerb(), a.readVerb(), a.historyVerb(),
		a.initVerb(), a.clubVerb(), a.clockVerb(), a.printerVerb(), a.templateVerb(), a.sheetVerb(), a.verifyVerb(), a.backupVerb(), a.rebuildVerb(), a.mergeVerb(), a.setasideVerb(), a.exportVerb(), a.importVerb(), a.demoVerb(),
	)
	root.AddCommand(a.lookVerbs()...)
}

// options are the desk's options of this command line.
func (a *app) options() desk.Options {
	book := a.book
	if book == "" {
		book = a.world.Getenv("STEELTALLY_BOOK")
	}
	if book == "" {
		book = "book"
	}
	return desk.Options{Book: book, Who: a.by, At: a.at, Ticket: a.key, Asked: a.asked(), Now: a.world.Now, Machine: a.machine(), Stdin: a.world.Stdin, Stdout: a.world.Stdout, Room: a.world.Room, Until: a.until, Stands: a.voice.stands}
}

// machine is the file with what belongs to this machine, or nothing where it has no
// place for it.
func (a *app) machine() string {
	folder := a.world.Getenv("STEELTALLY_MACHINE")
	if folder == "" && a.world.Config != "" {
		folder = filepath.Join(a.world.Config, "steeltally")
	}
	if folder == "" {
		return ""
	}
	return filepath.Join(folder, "machine.toml")
}

// withDesk opens the book for an action, once the clock is not in doubt or nobody is there
// to ask.
func (a *app) withDesk(act func(*desk.Desk) error) error {
	return a.atOnce(func(d *desk.Desk) error {
		if err := a.askClock(d); err != nil {
			return err
		}
		return act(d)
	})
}

// atOnce opens the book for what can't wait for an answer.
func (a *app) atOnce(act func(*desk.Desk) error) error { return a.with(desk.Open, a.options(), act) }

// reading opens the book for a question, beside others that read.
func (a *app) reading(ask func(*desk.Desk) error) error {
	return a.with(desk.OpenToRead, a.options(), ask)
}

func (a *app) with(open func(desk.Options) (*desk.Desk, error), o desk.Options, use func(*desk.Desk) error) error {
	d, err := open(o)
	if err != nil {
		return err
	}
	before := a.voice.desk
	a.voice.desk = d
	defer func() {
		a.voice.desk, a.voice.opened = before, &o
		d.Close()
	}()
	return use(d)
}

// lookVerbs tell what the steel says: of what comes, and of what was.
func (a *app) lookVerbs() []*cobra.Command {
	return []*cobra.Command{a.dueVerb(), a.buylistVerb(), a.reviewVerb(), a.claimVerb(), a.calcVerb()}
}

// addTravelVerbs adds what is for the road, for emergencies and for what is open.
func (a *app) addTravelVerbs(root *cobra.Command) {
	root.AddCommand(
		a.emergencyVerb(), a.triedVerb(), a.skatedVerb(), a.custodyVerb(), a.scrapVerb(),
		a.sparesVerb(), a.workVerb(), a.tripVerb(), a.callupVerb(), a.tradeVerb(), a.clearoutVerb(),
	)
}
