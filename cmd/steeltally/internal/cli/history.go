package cli

import (
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

func (a *app) historyVerb() *cobra.Command {
	var all bool
	cmd := &cobra.Command{
		Use: "history PIECE|PLAYER", Short: "everything that happened to a piece or a player", GroupID: groupAsk,
		Example: "  steeltally history R1-1-77\n  steeltally history 17 --all",
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			return a.reading(func(d *desk.Desk) error {
				who, err := a.player(d, args[0])
				if err != nil {
					return err
				}
				history, err := d.History(who, all)
				if err != nil {
					return err
				}
				if a.json {
					return a.voice.object(historyObject(history))
				}
				return a.sayHistory(d, who, history)
			})
		},
	}
	cmd.Flags().BoolVar(&all, "all", false, "all entries, not the last 50")
	return cmd
}

func (a *app) sayHistory(d *desk.Desk, who string, h desk.History) error {
	card, err := d.Card(who)
	if err != nil {
		return err
	}
	a.sayCard(card)
	a.voice.say("")
	if h.Left > 0 {
		a.voice.say("… %d earlier entries: --all shows them", h.Left)
	}
	for _, line := range h.Lines {
		mark := ""
		if line.VoidedBy != nil {
			mark = fmt.Sprintf("  (taken back by %s)", line.VoidedBy)
		}
		a.voice.say("%-18s %-12s %s%s", line.Happened, line.Key, line.Words, mark)
	}
	return nil
}

func (a *app) sayCard(card desk.Card) {
	a.voice.say("%s", card.Title)
	for _, line := range card.Lines {
		a.voice.say("  %s", line)
	}
}

// eventJSON is an entry of a history for programs.
type eventJSON struct {
	Key      string         `json:"event"`
	Happened inventory.When `json:"happened"`
	Noted    time.Time      `json:"noted"`
	Who      string         `json:"who,omitempty"`
	Kind     string         `json:"kind"`
	Words    string         `json:"words"`
	VoidedBy string         `json:"voided_by,omitempty"`
	Body     inventory.Body `json:"body"`
}

func historyObject(h desk.History) map[string]any {
	events := []eventJSON{}
	for _, line := range h.Lines {
		e := eventJSON{line.Key.String(), line.When, line.Noted, line.Who, line.Kind, line.Words, "", line.Body}
		if line.VoidedBy != nil {
			e.VoidedBy = line.VoidedBy.String()
		}
		events = append(events, e)
	}
	object := map[string]any{"events": events, "earlier": h.Left, "flags": flagObjects(h.Flags)}
	if len(h.Aside.Entries) > 0 {
		object["unsafe_aside"] = h.Aside.Entries
	}
	for name, value := range stateObject(h) {
		object[name] = value
	}
	return object
}

func flagObjects(flags []inventory.Flag) []map[string]any {
	objects := []map[string]any{}
	for _, flag := range flags {
		keys := []string{}
		for _, key := range flag.Keys {
			keys = append(keys, key.String())
		}
		objects = append(objects, map[string]any{"about": flag.About, "what": flag.What, "events": keys})
	}
	return objects
}
