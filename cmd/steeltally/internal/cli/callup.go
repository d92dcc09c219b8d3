package cli

import (
	"cmp"
	"fmt"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

func (a *app) callupVerb() *cobra.Command {
	deed := deeds.CallUp{}
	var sizes []int
	cmd := &cobra.Command{
		Use: "callup NAME --sweater NUMBER", Short: "a player joins at short notice: what fits, what is lacking", GroupID: groupStock,
		Long: `Add a player who joins at short notice with what is known of his skates, and tell what
fits from stock, what other players could spare (ask them), and what to buy. What is not
known stays unknown, and is asked for when the skates arrive: steeltally work lists it.`,
		Example: "  steeltally callup \"Odd Ferrin\" --sweater 27 --holder-family Skua --size 272 --hollow 1/2in --unknown profile,pitch",
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			deed.Name = args[0]
			if err := sizesFor(&deed, sizes); err != nil {
				return err
			}
			return a.withDesk(func(d *desk.Desk) error {
				n, needs, done, err := d.CallUp(deed)
				if err != nil {
					return err
				}
				err = a.voice.done(done, answer{Number: n, Needs: needs, Ask: asked(done)})
				a.sayNeeds(needs)
				return err
			})
		},
	}
	flags := cmd.Flags()
	flags.Var(sweaterFlag(&deed.Sweater), "sweater", "sweater number")
	flags.StringVar(&deed.Position, "position", "", "goalkeeper, defence or forward")
	flags.StringVar(&deed.Family, "holder-family", "", "of his holders")
	flags.IntSliceVar(&sizes, "size", nil, "length that the maker marks; left,right where they differ")
	flags.Var(cutFlag(&deed.Hollow), "hollow", "such as 1/2in")
	flags.Var(profileFlag(&deed.Profile), "profile", "such as 11ft")
	flags.Var(lengthFlag(&deed.Pitch), "pitch", "heel minus toe, such as 1.5mm")
	flags.StringSliceVar(&deed.Unknown, "unknown", nil, "what he could not say: "+list(inventory.Unknowns()))
	completeWords(cmd, "position", inventory.Positions())
	completeWords(cmd, "unknown", inventory.Unknowns())
	return cmd
}

// sizesFor takes one size for both sides, or left and right.
func sizesFor(deed *deeds.CallUp, sizes []int) error {
	switch len(sizes) {
	case 0:
		return nil
	case 1:
		deed.Sizes = inventory.Both[int]{Left: &sizes[0], Right: &sizes[0]}
	case 2:
		deed.Sizes = inventory.Both[int]{Left: &sizes[0], Right: &sizes[1]}
	default:
		return usage("--size takes one size, or left,right")
	}
	return nil
}

// asked lists what the player is to be asked, as it was recorded.
func asked(done desk.Done) []string {
	ask := []string{}
	for i := range done.Events {
		if body, ok := done.Events[i].Body.(*inventory.CalledUp); ok {
			ask = append(ask, body.Ask...)
		}
	}
	return ask
}

func (a *app) sayNeeds(needs []desk.NeedLine) {
	for _, need := range needs {
		size := ""
		if need.Size != 0 {
			size = fmt.Sprintf(" %d", need.Size)
		}
		a.voice.say("%s%s, %d wanted", need.What, size, need.Want)
		if need.Uncertain != "" {
			a.voice.say("  %s", need.Uncertain)
			continue
		}
		a.voice.say("  from stock: %s", cmp.Or(sayShort(need.Stock), "none"))
		for _, loan := range need.Others {
			a.voice.say("  ask %s: %s of %s", loan.Owner, loan.Number.Short(), loan.What)
		}
		if need.Buy > 0 {
			a.voice.say("  buy or borrow %d", need.Buy)
		}
	}
}
