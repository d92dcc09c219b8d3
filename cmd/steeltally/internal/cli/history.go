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
		RunE: a.reads(func(d *desk.Desk, args []string) error {
			who, err := a.player(d, args[0])
			if err != nil {
				return err
			}
			history, err := d.History(who, all)
			if err != nil {
				return err
			}
			if a.json {
				return a.voice.told(historyObject(history))
			}
			return a.sayHistory(d, who, history)
		}),
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
		a.voice.past("%-18s %-12s %s%s", line.Happened, line.Key, line.Words, mark)
	}
	return nil
}

func (a *app) sayCard(card desk.Card) {
	a.voice.say("%s", card.Title)
	if said := card.Aside.String(); said != "" {
		a.voice.say("  %s", said)
	}
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

// historyTold is what is known of a thing, for programs.
type historyTold struct {
	Events  []eventJSON        `json:"events"`
	Earlier int                `json:"earlier"`
	Flags   []flagTold         `json:"flags"`
	Aside   []desk.UnsafeAside `json:"unsafe_aside,omitempty"`
	stateTold
}

// flagTold is something that the record is unsure of.
type flagTold struct {
	About  inventory.Number `json:"about"`
	Events []string         `json:"events"`
	What   string           `json:"what"`
}

func historyObject(h desk.History) historyTold {
	told := historyTold{[]eventJSON{}, h.Left, []flagTold{}, h.Aside.Entries, stateOf(h)}
	for _, line := range h.Lines {
		e := eventJSON{line.Key.String(), line.When, line.Noted, line.Who, line.Kind, line.Words, "", line.Body}
		if line.VoidedBy != nil {
			e.VoidedBy = line.VoidedBy.String()
		}
		told.Events = append(told.Events, e)
	}
	for _, flag := range h.Flags {
		keys := []string{}
		for _, key := range flag.Keys {
			keys = append(keys, key.String())
		}
		told.Flags = append(told.Flags, flagTold{flag.About, keys, flag.What})
	}
	return told
}
