package cli

import (
	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory/deeds"
)

func (a *app) initVerb() *cobra.Command {
	club := deeds.FoundClub{}
	cmd := &cobra.Command{
		Use: "init --club NAME", Short: "make a new, empty book for a club", GroupID: groupBook,
		Long: `Make a new, empty book for a club.

Each place where the program runs has its own station digit, so that two places never
give the same number. The station's digit stands in every number that it gives.`,
		Example: `  steeltally init --club "Skarn Harbour Terns" --station 1 --zone Europe/Oslo`,
		Args:    cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			if err := desk.Init(a.options(), club); err != nil {
				return err
			}
			made := answer{Book: a.options().Book, Club: club.Name, Station: &club.Station}
			a.voice.say("a book for %s is in %s; next: steeltally player add", made.Club, made.Book)
			return a.voice.told(made)
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&club.Name, "club", "", "the club's name")
	flags.IntVar(&club.Station, "station", 1, "this place's digit, 0 to 9")
	flags.StringVar(&club.Zone, "zone", "UTC", "the club's time zone, such as Europe/Oslo")
	cmd.MarkFlagRequired("club")
	return cmd
}
