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
		RunE: a.reads(func(d *desk.Desk, _ []string) error {
			claim, err := d.Claim(asked)
			if err != nil {
				return err
			}
			if sheet.File != "" {
				return a.wrote(d.PrintClaim(claim, sheet))
			}
			for _, line := range claim.Figures() {
				a.voice.say("%s", line)
			}
			a.voice.say("add --pdf claim.pdf to get the sheet")
			return a.voice.told(claim.Asked, claimObject(claim))
		}),
	}
	flags := cmd.Flags()
	flags.StringVar(&asked.Model, "model", "", "the model, of holder or runner")
	flags.StringVar(&asked.Lot, "lot", "", "the maker's lot; every lot unless told")
	wordFlag(cmd, &asked.Zone, "zone", "the place at which it broke", inventory.Zones())
	flags.BoolVar(&asked.Before, "chosen-before", false, "the comparison was chosen before looking at the figures")
	flags.BoolVar(&asked.Names, "names", false, "with the players' names")
	flags.StringVar(&asked.Request, "request", "", "what the maker is asked for")
	a.sheetFlags(cmd, &sheet)
	cmd.MarkFlagRequired("model")
	return cmd
}

// claimTold are the figures of a claim for programs.
type claimTold struct {
	Pieces         []brokenTold `json:"pieces"`
	Fitted         int          `json:"fitted"`
	Broken         int          `json:"broken"`
	Sessions       float64      `json:"sessions"`
	PerThousand    bound        `json:"per_1000_sessions"`
	Low            bound        `json:"low"`
	High           bound        `json:"high"`
	OthersBroken   int          `json:"others_broken"`
	OthersSessions float64      `json:"others_sessions"`
	OthersRate     bound        `json:"others_per_1000_sessions"`
	Ratio          bound        `json:"ratio"`
	Chance         float64      `json:"chance"`
	Words          []string     `json:"words"`
}

// brokenTold is a broken piece.
type brokenTold struct {
	desk.PieceLine
	Lot      string         `json:"lot"`
	Order    string         `json:"order"`
	Fitted   inventory.When `json:"fitted"`
	Fitter   string         `json:"fitted_by"`
	Sessions *int           `json:"sessions"`
	Broke    inventory.When `json:"broke"`
	Mode     inventory.Mode `json:"mode"`
	Zone     inventory.Zone `json:"zone"`
	Cause    string         `json:"cause"`
	Photos   []string       `json:"photos"`
	Kept     string         `json:"kept"`
}

func claimObject(c desk.Claim) claimTold {
	pieces := []brokenTold{}
	for _, p := range c.Pieces {
		broke := p.Broke.Value
		pieces = append(pieces, brokenTold{
			p.Piece, p.Lot, p.Order, p.In, p.Fitter, p.Times, p.Broke.When, broke.Mode, broke.Zone, broke.Cause, broke.Photos, p.Held,
		})
	}
	return claimTold{
		pieces, len(c.Fitted), len(c.Broken), c.Own.Sessions, bound(c.Own.PerThousand), bound(c.Own.Low), bound(c.Own.High),
		c.Rest.Incidents, c.Rest.Sessions, bound(c.Rest.PerThousand), bound(c.Ratio), c.Chance, c.Figures(),
	}
}
