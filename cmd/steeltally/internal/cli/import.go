package cli

import (
	"os"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// mostRowErrors is how many wrong rows are listed for a person.
const mostRowErrors = 20

func (a *app) importVerb() *cobra.Command {
	list := desk.OldList{}
	cmd := &cobra.Command{
		Use: "import FILE", Short: "enter a club's own list of old pieces", GroupID: groupBook,
		Long: `Enter a club's own list of old pieces: a spreadsheet saved as comma-separated values
(or parted by semicolons or tabs), whose first row names the columns. Say with --map which column holds what:
inscription (what is written on the steel, as it stands), player, side, off (when it
came off, as vague as it is known) and place.

Without --write it only looks and says what is wrong with which row. With --write all
rows are entered, or none where one is wrong.`,
		Example: "  steeltally import bin.csv --map inscription=Text,player=Number,side=Side,off=Removed\n" +
			"  steeltally import bin.csv --map inscription=Text,player=Number,side=Side,off=Removed --write",
		Args: cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			file, err := os.Open(args[0])
			if err != nil {
				return err
			}
			defer file.Close()
			list.Rows = file
			return a.withDesk(func(d *desk.Desk) error {
				result, done, err := d.ImportOld(list)
				if err != nil {
					return err
				}
				return a.sayImport(result, done)
			})
		},
	}
	cmd.Flags().StringToStringVar(&list.Columns, "map", nil, "FIELD=COLUMN, several parted by commas")
	cmd.Flags().BoolVar(&list.Write, "write", false, "enter the pieces; without it nothing is recorded")
	cmd.MarkFlagRequired("map")
	return cmd
}

func (a *app) sayImport(r desk.OldImport, done desk.Done) error {
	if a.json {
		a.voice.object(r)
	}
	for i, wrong := range r.Errors {
		if i == mostRowErrors {
			a.voice.say("… and %d more: --json lists them all", len(r.Errors)-mostRowErrors)
			break
		}
		a.voice.say("row %d: %s", wrong.Row, wrong.Reason)
	}
	switch {
	case len(r.Errors) > 0:
		return &toldError{&inventory.BadValue{Reason: desk.SayCount(len(r.Errors), "row") + " of " + desk.SayCount(r.Rows, "row") + " can't be entered, so none was", Hint: "mend them in the spreadsheet and try again"}}
	case !r.Written:
		a.voice.say("%s can be entered; add --write to do it", desk.SayCount(r.Rows, "piece"))
	default:
		a.voice.say("%s entered, %s to %s", desk.SayCount(r.Rows, "piece"), r.Numbers[0].Short(), r.Numbers[len(r.Numbers)-1].Short())
	}
	a.voice.notices(done.Notices)
	return nil
}
