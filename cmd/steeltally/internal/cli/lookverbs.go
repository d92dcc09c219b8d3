package cli

import "github.com/spf13/cobra"

// lookVerbs tell what the steel says: of what comes, and of what was.
func (a *app) lookVerbs() []*cobra.Command {
	return []*cobra.Command{a.dueVerb(), a.buylistVerb(), a.reviewVerb(), a.claimVerb(), a.calcVerb()}
}
