package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

func (a *app) clubVerb() *cobra.Command {
	var change deeds.ChangeClub
	cmd := &cobra.Command{
		Use: "club", Short: "whose book it is, and this place's station digit; change them", GroupID: groupBook,
		Long: `Say whose book it is, or change it. Each folder that the program writes to has a station
digit of its own, which stands in every number that it gives: two with the same digit
would give the same number. A copied or rebuilt book goes on with the digit of the one
it came from; where several stations wrote in that, say which one this is.`,
		Example: "  steeltally club\n  steeltally club --station 2\n  steeltally club --name \"Skarn Harbour Terns\" --zone Europe/Oslo",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if change == (deeds.ChangeClub{}) {
				return a.reading(a.sayClub)
			}
			return a.act(func(d *desk.Desk) (desk.Done, error) { return d.ChangeClub(change) })
		},
	}
	flags := cmd.Flags()
	flags.Var(textFlag(&change.Name), "name", "the club's name")
	flags.Var(textFlag(&change.Zone), "zone", "the club's time zone, such as Europe/Oslo")
	flags.Var(countFlag(&change.Station), "station", "this place's digit, 0 to 9")
	return cmd
}

func (a *app) sayClub(d *desk.Desk) error {
	club, err := d.Club()
	if err != nil {
		return err
	}
	a.voice.say("%s, %s", club.Name, club.Zone)
	station := "not known: steeltally club --station DIGIT"
	if club.Station != nil {
		station = fmt.Sprint(*club.Station)
	}
	a.voice.say("station digit here: %s; in the record: %s", station, inventory.OrDash(inventory.SayDigits(club.Digits)))
	return a.voice.told(club)
}

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
