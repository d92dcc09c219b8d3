package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

func (a *app) claimVerb() *cobra.Command {
	asked := desk.ClaimAsked{}
	sheet := desk.Sheet{}
	cmd := &cobra.Command{
		Use: "claim --model MODEL", Short: "figures for a maker, of what broke and of all that did not", GroupID: groupAsk,
		Long: `Gather what makes a maker take a claim seriously: the pieces that cracked, broke or bent,
with lot, order, who fitted them and when, sessions in use, place, photographs; all that
were fitted, broken or not; how often that is, beside the other lots or models.

Say --chosen-before only if the comparison was decided on before anybody looked at the
figures. Players' names stay out unless --names asks for them.`,
		Example: "  steeltally claim --model \"Petrel H\" --lot HP24-3-2 --zone rear-tower --pdf claim.pdf",
		Args:    cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			return a.reading(func(d *desk.Desk) error {
				claim, err := d.Claim(asked)
				if err != nil {
					return err
				}
				if sheet.File != "" {
					return a.wrote(d.PrintClaim(claim, sheet))
				}
				if a.json {
					return a.voice.object(claimObject(claim))
				}
				for _, line := range claim.Figures() {
					a.voice.say("%s", line)
				}
				a.voice.say("add --pdf claim.pdf to get the sheet")
				return nil
			})
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&asked.Model, "model", "", "the model, of holder or runner")
	flags.StringVar(&asked.Lot, "lot", "", "the maker's lot; every lot unless told")
	flags.StringVar(&asked.Zone, "zone", "", "the place at which it broke: "+list(inventory.Zones()))
	flags.BoolVar(&asked.Before, "chosen-before", false, "the comparison was chosen before looking at the figures")
	flags.BoolVar(&asked.Names, "names", false, "with the players' names")
	flags.StringVar(&asked.Request, "request", "", "what the maker is asked for")
	a.sheetFlags(cmd, &sheet)
	cmd.MarkFlagRequired("model")
	completeWords(cmd, "zone", inventory.Zones())
	return cmd
}

func claimObject(c desk.Claim) map[string]any {
	pieces := []map[string]any{}
	for _, p := range c.Pieces {
		pieces = append(pieces, map[string]any{
			"number": p.Number, "side": p.Side, "lot": p.Lot, "order": p.Order, "fitted": p.In, "fitted_by": p.Fitter,
			"sessions": p.Times, "broke": p.Broke.When, "mode": p.Broke.Value.Mode, "zone": p.Broke.Value.Zone,
			"cause": p.Broke.Value.Cause, "photos": p.Broke.Value.Photos, "kept": p.Held,
		})
	}
	return map[string]any{
		"model": c.Asked.Model, "lot": c.Asked.Lot, "zone": c.Asked.Zone, "pieces": pieces, "fitted": len(c.Fitted),
		"broken": len(c.Broken), "sessions": c.Own.Sessions, "per_1000_sessions": number(c.Own.PerThousand),
		"low": number(c.Own.Low), "high": number(c.Own.High), "others_broken": c.Rest.Incidents, "others_sessions": c.Rest.Sessions,
		"others_per_1000_sessions": number(c.Rest.PerThousand), "ratio": number(c.Ratio), "chance": c.Chance,
		"chosen_before": c.Asked.Before, "words": c.Figures(),
	}
}
