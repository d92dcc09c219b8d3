package cli

import (
	"cmp"
	"fmt"
	"strconv"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
)

func (a *app) templateVerb() *cobra.Command {
	return parent(&cobra.Command{
		Use: "template", Short: "the tags that there are, and a club's own", GroupID: groupBook, Args: cobra.NoArgs,
		Long: `Tags are described in plain files: fields in mm with their texts, symbols, bars, holes
and lines. A club's own lie in the book's folder templates/tags and come before the
program's; its own sheets and rolls in templates/sheets.`,
	}, a.templateList(), a.templateNew(), a.templateCheck())
}

func (a *app) templateList() *cobra.Command {
	return &cobra.Command{
		Use: "list", Short: "which tags there are", Args: cobra.NoArgs,
		Example: "  steeltally template list",
		RunE: func(*cobra.Command, []string) error {
			lines := desk.Templates(a.options())
			return tabled(a.voice, answer{Templates: lines}, lines, []string{"tag", "mm", "of", "fits on", ""}, func(t desk.TemplateLine) []string {
				size, sheet := "–", cmp.Or(t.Fault, "no sheet")
				if t.Fault == "" {
					size = fmt.Sprintf("%g x %g", t.Width, t.Height)
				}
				if len(t.Sheets) > 0 {
					sheet = list(t.Sheets[:min(shownSheets, len(t.Sheets))])
				}
				return []string{t.Name, size, t.Title, sheet, ownOr(t.Own)}
			})
		},
	}
}

// shownSheets is how many of the sheets that a tag fits on are listed.
const shownSheets = 4

// ownOr marks what is the club's own.
func ownOr(own bool) string {
	if own {
		return "own"
	}
	return ""
}

func (a *app) templateNew() *cobra.Command {
	var from string
	cmd := &cobra.Command{
		Use: "new NAME --from TAG", Short: "start an own tag from another one",
		Example: "  steeltally template new our-tie-on --from tie-on",
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			file, replaces, err := desk.NewTemplate(a.options(), args[0], from)
			if err != nil {
				return err
			}
			a.voice.say("%s: change it as you like, then: steeltally template check %s", file, file)
			if replaces {
				a.voice.say("it takes the place of the program's own %s", args[0])
			}
			return a.voice.told(answer{Template: args[0], File: file, Replaces: &replaces})
		},
	}
	cmd.Flags().StringVar(&from, "from", "", "the tag to start from; steeltally template list shows them")
	cmd.MarkFlagRequired("from")
	return cmd
}

func (a *app) templateCheck() *cobra.Command {
	return &cobra.Command{
		Use: "check FILE", Short: "say what is wrong with a tag's file, line by line",
		Long: `Say what is wrong with a tag's file, line by line, then lay it out with tags of every
sort at 203, 300 and 600 dpi and say what does not fit or overlaps.`,
		Example: "  steeltally template check book/templates/tags/our-tie-on.toml",
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			source, name, err := a.read(args[0])
			if err != nil {
				return err
			}
			return a.sayCheck(desk.CheckTemplate(a.options(), name, source))
		},
	}
}

// sayCheck says what is wrong with a file; a faulty one fails.
func (a *app) sayCheck(check desk.TemplateCheck) error {
	if err := a.voice.told(check); err != nil {
		return err
	}
	if len(check.Faults) == 0 {
		a.voice.say("%s is sound: %s", check.File, check.About)
		if len(check.Sheets) > 0 {
			a.voice.say("it fits on %s", list(check.Sheets))
		}
		return nil
	}
	for _, fault := range check.Faults {
		a.voice.say("%s", fault)
	}
	return &toldError{fmt.Errorf("%s has %s", check.File, desk.SayCount(len(check.Faults), "fault"))}
}

func (a *app) sheetVerb() *cobra.Command {
	return parent(&cobra.Command{
		Use: "sheet", Short: "the label sheets and rolls that there are", GroupID: groupBook, Args: cobra.NoArgs,
		Long: `Label sheets and rolls are described by their geometry in mm, in plain files. A club's
own lie in the book's folder templates/sheets.`,
	}, a.sheetList(), a.sheetCheck())
}

func (a *app) sheetList() *cobra.Command {
	return &cobra.Command{
		Use: "list", Short: "which sheets and rolls there are, and where part-used ones go on", Args: cobra.NoArgs,
		Example: "  steeltally sheet list",
		RunE: func(*cobra.Command, []string) error {
			lines, err := desk.Sheets(a.options())
			if err != nil {
				return err
			}
			return tabled(a.voice, answer{Sheets: lines}, lines, []string{"sheet", "is", "", ""}, func(s desk.SheetLine) []string {
				next := ""
				if s.Start > 1 {
					next = "goes on at label " + strconv.Itoa(s.Start)
				}
				return []string{s.Name, cmp.Or(s.Fault, s.About), next, ownOr(s.Own)}
			})
		},
	}
}

func (a *app) sheetCheck() *cobra.Command {
	return &cobra.Command{
		Use: "check FILE", Short: "say what is wrong with a sheet's file, line by line",
		Example: "  steeltally sheet check book/templates/sheets/our-roll.toml",
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			source, name, err := a.read(args[0])
			if err != nil {
				return err
			}
			return a.sayCheck(desk.CheckSheet(name, source))
		},
	}
}
