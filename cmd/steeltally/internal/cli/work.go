package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
)

// workSections are the headings of open work, by sort.
var workSections = [...]struct{ sort, heading string }{
	{"unsafe-aside", "DO NOT SKATE, and not in the record"},
	{"unsafe", "DO NOT SKATE, still on a boot"},
	{"emergency", "AFTER AN EMERGENCY"},
	{"suspect", "LOOK AT"},
	{"bare", "BOOTS THAT LACK SOMETHING"},
	{"unworked", "COULD NOT BE WORKED OUT"},
	{"conflict", "THE RECORD CONTRADICTS ITSELF"},
	{"aside", "NOT IN THE RECORD"},
	{"clock", "THE MACHINE'S CLOCK"},
	{"overdue", "OVERDUE"},
	{"returned", "BACK WITH THE CLUB"},
	{"ask", "ASK THE PLAYER"},
	{"ground", "ON, AND NEVER GROUND"},
	{"spare", "SPARE PAIRS TO FIX FIRST (steeltally spares NUMBER says how)"},
}

func (a *app) workVerb() *cobra.Command {
	return &cobra.Command{
		Use: "work", Short: "everything that waits for a person", GroupID: groupAsk,
		Long: `List everything that waits for a person: what nobody may skate on and is still on a boot,
emergencies that were mended for the moment, entries that contradict each other or were
set aside, what is overdue or back and not looked at, questions to players, steel that
is on and was never ground, spare pairs to fix first.`,
		Example: "  steeltally work",
		Args:    cobra.NoArgs,
		RunE: a.reads(func(d *desk.Desk, _ []string) error {
			items, err := d.Work()
			if err != nil {
				return err
			}
			a.sayWork(items)
			return a.voice.told(answer{Work: items})
		}),
	}
}

func (a *app) sayWork(items []desk.WorkItem) {
	if len(items) == 0 {
		a.voice.say("nothing is open")
		return
	}
	for _, section := range workSections {
		said := false
		for _, item := range items {
			if string(item.Sort) != section.sort {
				continue
			}
			if !said {
				a.voice.say("%s", section.heading)
				said = true
			}
			a.voice.say("  %s", item.What)
			if item.Sort != "spare" {
				a.voice.say("      %s", item.Hint)
			}
		}
	}
}
