package cli

import "github.com/spf13/cobra"

// addTravelVerbs adds what is for the road, for emergencies and for what is open.
func (a *app) addTravelVerbs(root *cobra.Command) {
	root.AddCommand(
		a.emergencyVerb(), a.triedVerb(), a.skatedVerb(), a.custodyVerb(), a.scrapVerb(),
		a.sparesVerb(), a.workVerb(), a.tripVerb(), a.callupVerb(), a.tradeVerb(), a.clearoutVerb(),
	)
}
