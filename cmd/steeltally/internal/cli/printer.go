package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/geometry"
)

func (a *app) printerVerb() *cobra.Command {
	return parent(&cobra.Command{
		Use: "printer", Short: "the printers of this machine", GroupID: groupBook, Args: cobra.NoArgs,
		Long: `The printers of this machine, and what is loaded in them. They belong to the machine,
not to the book: each place sets up its own. They are kept in the user's settings, or in
the folder that STEELTALLY_MACHINE names.

Tags go to a print queue of CUPS at their own size, never fitted to the page.`,
	}, a.printerAdd(), a.printerList(), a.printerRemove(), a.printerCalibrate())
}

func (a *app) printerAdd() *cobra.Command {
	printer := desk.Printer{}
	cmd := &cobra.Command{
		Use: "add NAME --queue QUEUE --sheet SHEET", Short: "set up a printer, or change what is loaded in it",
		Long: `Set up a printer under a name of your own, or change what is loaded in it.
lpstat -e lists the print queues; steeltally sheet list shows the sheets and rolls.`,
		Example: "  steeltally printer add bench --queue TagPrinter --sheet roll-70x35 --dpi 203\n" +
			"  steeltally tag R1-1-77 --print bench",
		Args: cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			printer.Name = args[0]
			notices, err := desk.AddPrinter(a.options(), printer)
			if err != nil {
				return err
			}
			a.voice.notices(notices)
			a.voice.say("printer %s: queue %s, %s, %d dpi; next: steeltally printer calibrate %s",
				printer.Name, printer.Queue, printer.Sheet, printer.DPI, printer.Name)
			return a.voice.told(answer{Printer: printer.Name, Notices: notices})
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&printer.Queue, "queue", "", "the print queue")
	flags.StringVar(&printer.Sheet, "sheet", "", "the sheet or roll that is loaded, such as roll-70x35 or a4-3x8")
	flags.IntVar((*int)(&printer.DPI), "dpi", int(desk.DefaultDPI), "its dots per inch")
	cmd.MarkFlagRequired("queue")
	cmd.MarkFlagRequired("sheet")
	return cmd
}

func (a *app) printerList() *cobra.Command {
	return &cobra.Command{
		Use: "list", Short: "which printers there are, and how they are", Args: cobra.NoArgs,
		Example: "  steeltally printer list",
		RunE: func(*cobra.Command, []string) error {
			printers, err := desk.Printers(a.options())
			if err != nil {
				return err
			}
			if len(printers) == 0 {
				a.voice.say("no printer is set up on this machine: steeltally printer add")
				return a.voice.told(answer{Printers: printers})
			}
			return tabled(a.voice, answer{Printers: printers}, printers, []string{"name", "queue", "sheet", "dpi", "state", "calibration"}, func(p desk.Printer) []string {
				return []string{p.Name, p.Queue, p.Sheet, fmt.Sprint(p.DPI), p.State, p.Offset}
			})
		},
	}
}

func (a *app) printerRemove() *cobra.Command {
	return &cobra.Command{
		Use: "remove NAME", Short: "forget a printer", Args: cobra.ExactArgs(1),
		Example: "  steeltally printer remove bench",
		RunE: func(_ *cobra.Command, args []string) error {
			if err := desk.RemovePrinter(a.options(), args[0]); err != nil {
				return err
			}
			a.voice.say("printer %s is forgotten", args[0])
			return a.voice.told(answer{Removed: args[0]})
		},
	}
}

func (a *app) printerCalibrate() *cobra.Command {
	var ruler desk.Ruler
	var out string
	cmd := &cobra.Command{
		Use: "calibrate NAME", Short: "put the print on the die cut: print a page, measure it, type what you measured",
		Long: `Print a page with rulers, measure it with a steel ruler, and type what you measured;
Enter where it is as it should be. From then on labels are printed where they belong.
Places are put right; a tag itself stays in whole dots.`,
		Example: "  steeltally printer calibrate bench\n" +
			"  steeltally printer calibrate bench --left 8.4 --top 3.8 --across 54 --down 27",
		Args: cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if cmd.Flags().Changed("left") || cmd.Flags().Changed("top") || cmd.Flags().Changed("across") || cmd.Flags().Changed("down") {
				return a.calibrate(args[0], ruler)
			}
			return a.calibrationPage(args[0], out)
		},
	}
	flags := cmd.Flags()
	fileFlag(cmd, &out, "out", "write the page to this file instead of printing it")
	for _, measure := range []struct {
		flag, what string
		value      **geometry.Millimetre
	}{
		{"left", "left edge of the paper to the left line", &ruler.Left},
		{"top", "top edge of the paper to the top line", &ruler.Top},
		{"across", "left line to right line", &ruler.Across},
		{"down", "top line to bottom line", &ruler.Down},
	} {
		flags.Var(heightFlag(measure.value), measure.flag, measure.what+", as measured")
	}
	return cmd
}

// calibrationPage prints the page and, at a terminal, asks what was measured.
func (a *app) calibrationPage(name, out string) error {
	page, err := desk.PrintCalibration(a.options(), name, out)
	if err != nil {
		return err
	}
	if a.json {
		return a.voice.told(answer{Printer: name}, page)
	}
	if page.Job != "" {
		a.voice.say("the page is on its way to %s, job %s; measure on it:", name, page.Job)
	} else {
		a.voice.say("the page is in %s; print it at actual size and measure on it:", sayFile(page.File))
	}
	if !a.mayAsk() {
		for _, line := range page.Ask {
			a.voice.say("  %s", line)
		}
		a.voice.say("then: steeltally printer calibrate %s --left MM --top MM --across MM --down MM", name)
		return nil
	}
	ruler, err := a.askRuler(page.Ask)
	if err != nil {
		return err
	}
	return a.calibrate(name, ruler)
}

// askRuler asks for the four measures; Enter is as it should be.
func (a *app) askRuler(ask []string) (desk.Ruler, error) {
	var ruler desk.Ruler
	answers := a.answers()
	for i, value := range []**geometry.Millimetre{&ruler.Left, &ruler.Top, &ruler.Across, &ruler.Down} {
		a.voice.ask("%s  measured: ", ask[i])
		if !answers.next() || answers.text == "" {
			continue
		}
		length, err := geometry.ParseHeight(answers.text)
		if err != nil {
			return ruler, &usageError{err}
		}
		*value = &length
	}
	return ruler, nil
}

func (a *app) calibrate(name string, ruler desk.Ruler) error {
	said, err := desk.Calibrate(a.options(), name, ruler)
	if err != nil {
		return err
	}
	a.voice.say("%s %s; labels are put right by that from now on", name, said)
	return a.voice.told(answer{Printer: name, Calibration: said})
}
