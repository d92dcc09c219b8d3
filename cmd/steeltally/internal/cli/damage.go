package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

func (a *app) damageVerb() *cobra.Command {
	damage := deeds.ReportDamage{}
	var photos []string
	cmd := &cobra.Command{
		Use: "damage RUNNER|HOLDER|PAIR --mode MODE", Short: "note what broke, where and how", GroupID: groupDay,
		Long: `Note what broke, where and how. A crack, a break or a bend means DO NOT SKATE: the
piece's tag says so, and no list calls it ready.`,
		Example: "  steeltally damage H1-1-43 --mode crack --zone rear-tower --cause puck --shifts-missed 0 --took 5m",
		Args:    cobra.ExactArgs(1),
		RunE:    a.acts(func(d *desk.Desk, args []string) (desk.Done, error) { return d.Damage(args[0], damage, photos) }),
	}
	flags := cmd.Flags()
	wordFlag(cmd, &damage.Mode, "mode", "how it is damaged", inventory.Modes())
	wordFlag(cmd, &damage.Zone, "zone", "where along the skate", inventory.Zones())
	wordFlag(cmd, &damage.Face, "face", "on which face", inventory.Faces())
	wordFlag(cmd, &damage.Cause, "cause", "what did it", inventory.Causes())
	wordFlag(cmd, &damage.Found, "found", "when it was found", inventory.FoundWhen())
	flags.Var(countFlag(&damage.ShiftsMissed), "shifts-missed", "shifts that the player missed")
	flags.Var(minutesFlag(&damage.Minutes), "took", "until the player was back, such as 5m")
	flags.StringVar(&damage.Note, "note", "", "anything else")
	flags.StringSliceVar(&photos, "photo", nil, "a photograph, which is kept in the book's folder")
	cmd.MarkFlagRequired("mode")
	return cmd
}

func (a *app) inspectVerb() *cobra.Command {
	look := deeds.Inspect{}
	var unsound bool
	cmd := &cobra.Command{
		Use: "inspect PAIR|HOLDER|RUNNER", Short: "bolts, rivets and the piece were looked at", GroupID: groupDay,
		Long: `Note that bolts, rivets and the piece itself were looked at, and found sound unless
told. That closes a loose bolt or rivet; a crack, a break or a bend stays. What may be
broken, and is not to be skated on, is named once more: it asks, or say --sound.`,
		Example: "  steeltally inspect P1-1-09\n  steeltally inspect H1-1-43 --unsound --note \"rear rivet turns\"",
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			look.Sound = !unsound
			return a.act(func(d *desk.Desk) (desk.Done, error) {
				done, err := d.Inspect(args[0], look)
				if sure := a.lifted(err); sure != nil {
					look.Sure = sure
					return d.Inspect(args[0], look)
				}
				return done, err
			})
		},
	}
	cmd.Flags().BoolVar(&unsound, "unsound", false, "something is wrong; note a damage too if it can be named")
	cmd.Flags().StringVar(&look.Note, "note", "", "what was seen")
	soundFlag(cmd, &look.Sure)
	return cmd
}
