package cli

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

func (a *app) tripPack() *cobra.Command {
	var from, trunk string
	var out bool
	cmd := &cobra.Command{
		Use: "pack NAME [SCAN…]", Short: "put pieces and kits into trunks: one scan a piece",
		Long: `Put pieces into trunks, one scan a piece: the trunk first, then what goes into it, then
the next trunk. A player's sweater or tag stands for his spare pair; "250 x rivets 5 mm"
counts a kit. The file may be a picture of many tags: then say the trunk with --trunk.
What can't be taken is named, and everything else is recorded.`,
		Example: "  steeltally trip pack \"Rime Point\" --from -\n  steeltally trip pack \"Rime Point\" --from trunk3.jpg --trunk \"Trunk 3\"",
		Args:    cobra.MinimumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			scans, err := a.scansAndTyped(cmd, from, args[1:])
			if err != nil {
				return err
			}
			return a.withDesk(func(d *desk.Desk) error {
				done, err := d.Pack(args[0], trunk, scans, out)
				return a.sayTaken(done, err, answer{})
			})
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&from, "from", "", "a file of scans, one a line, or a picture; - is the standard input")
	flags.StringVar(&trunk, "trunk", "", "the trunk that all of it goes into")
	flags.BoolVar(&out, "take-out", false, "it comes out again")
	return cmd
}

// scansAndTyped adds the scans of a file, or the tags of a picture, to what was typed.
func (a *app) scansAndTyped(cmd *cobra.Command, file string, args []string) ([]string, error) {
	if file == "" {
		return args, nil
	}
	scans, err := a.scansOf(cmd.Context(), file)
	return append(append([]string(nil), args...), scans...), err
}

// sayTaken says what was recorded, and which scans were not taken.
func (a *app) sayTaken(done desk.Done, err error, more answer) error {
	var not *desk.NotTakenError
	if err == nil {
		return a.voice.done(done, more)
	}
	if !errors.As(err, &not) {
		return err
	}
	more.NotTaken = not.Unread
	a.voice.doneBefore(done, more)
	for _, scan := range not.Unread {
		a.voice.notice(inventory.Notice{Text: fmt.Sprintf("line %d, %q: %s", scan.Line, scan.Scan, scan.Reason)})
	}
	return err
}

func (a *app) tripShort() *cobra.Command {
	return &cobra.Command{
		Use: "short NAME", Short: "what should be in and isn't",
		Example: "  steeltally trip short \"Rime Point\"",
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			return a.reading(func(d *desk.Desk) error {
				short, err := d.Short(args[0])
				if err != nil {
					return err
				}
				a.sayLacking(short)
				return a.voice.told(short)
			})
		},
	}
}

func (a *app) sayLacking(short desk.TripShort) {
	var rows [][]string
	for _, s := range short.Short {
		rows = append(rows, []string{sayCount(s.Sweater), s.Name, s.What, s.Number.Short(), s.Why, s.Place})
	}
	if len(rows) > 0 {
		a.voice.table([]string{"no", "name", "what", "number", "why", "last at"}, rows)
	}
	for _, trunk := range short.Trunks {
		a.voice.say("%s is not here", trunk.Name)
	}
	a.voice.say("%s packed, %d short", desk.SayCount(short.Packed, "piece"), len(short.Short))
}
