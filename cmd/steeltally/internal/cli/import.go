package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// mostRowErrors is how many wrong rows are listed for a person.
const mostRowErrors = 20

func (a *app) importVerb() *cobra.Command {
	file, how, write := desk.OldFile{}, desk.ImportOld{}, false
	cmd := &cobra.Command{
		Use: "import FILE", Short: "enter a club's own list of old pieces", GroupID: groupBook,
		Long: `Enter a club's own list of old pieces: a spreadsheet saved as comma-separated values
(or parted by semicolons or tabs), whose first row names the columns. Say with --map which column holds what:
inscription (what is written on the steel, as it stands), player, side, off (when it
came off, in any way in which found reads dates) and place. The file is UTF-8, or UTF-16 with its mark.

Without --write it only looks and says what is wrong with which row. With --write all
rows are entered, or none where one is wrong: where a column and what is written on the
steel contradict each other, or where a piece is in the record or in the list already.`,
		Example: "  steeltally import bin.csv --map inscription=Text,player=Number,side=Side,off=Removed\n" +
			"  steeltally import bin.csv --map inscription=Text,off=Removed --dates dm --encoding windows-1252\n" +
			"  steeltally import bin.csv --map inscription=Text,player=Number,side=Side,off=Removed --write",
		Args: cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) (err error) {
			if how.List, err = a.readOldList(args[0], file); err != nil {
				return err
			}
			if !write {
				return a.reading(func(d *desk.Desk) error {
					result, err := d.LookAtOld(how)
					if err != nil {
						return err
					}
					return a.sayImport(result, desk.Done{})
				})
			}
			return a.withDesk(func(d *desk.Desk) error {
				result, done, err := d.EnterOld(how)
				if err != nil {
					return err
				}
				return a.sayImport(result, done)
			})
		},
	}
	flags := cmd.Flags()
	flags.StringToStringVar(&file.Columns, "map", nil, "FIELD=COLUMN, several parted by commas")
	flags.StringVar(&file.Encoding, "encoding", "", "what the file is written in: "+list(desk.TextEncodings()))
	flags.Var(datesFlag(&how.Hand), "dates", "how dates are meant: dm (3/4/2025 is 3 April), md (4 March) or my (3/24 is March 2024)")
	flags.BoolVar(&how.Alike, "alike", false, "enter what looks like a piece that is known already as another one")
	flags.BoolVar(&write, "write", false, "enter the pieces; without it nothing is recorded")
	cmd.MarkFlagRequired("map")
	return cmd
}

func (a *app) readOldList(name string, file desk.OldFile) (desk.OldList, error) {
	f, _, err := a.open(name)
	if err != nil {
		return desk.OldList{}, err
	}
	defer f.Close()
	file.Rows = f
	return desk.ReadOldList(file)
}

func (a *app) sayImport(r desk.OldImport, done desk.Done) error {
	a.voice.told(r)
	for i, wrong := range r.Errors {
		if i == mostRowErrors {
			a.voice.say("… and %d more: --json lists them all", len(r.Errors)-mostRowErrors)
			break
		}
		a.voice.say("row %d: %s", wrong.Row, wrong.Reason)
		if wrong.Hint != "" && (i == 0 || r.Errors[i-1].Hint != wrong.Hint) {
			a.voice.say("       %s", wrong.Hint)
		}
	}
	switch {
	case len(r.Errors) > 0:
		return &toldError{&inventory.BadValue{Reason: fmt.Sprintf("%d of %s", len(r.Errors), desk.SayCount(r.Rows, "row")) + " can't be entered, so none was", Hint: "mend them in the spreadsheet and try again"}}
	case !r.Written:
		a.voice.say("%s can be entered; add --write to do it", desk.SayCount(r.Rows, "piece"))
	case r.Rows == 1:
		a.voice.say("1 piece entered, %s", r.Numbers[0].Short())
	default:
		a.voice.say("%s entered, %s to %s", desk.SayCount(r.Rows, "piece"), r.Numbers[0].Short(), r.Numbers[len(r.Numbers)-1].Short())
	}
	a.voice.notices(done.Notices)
	return nil
}
