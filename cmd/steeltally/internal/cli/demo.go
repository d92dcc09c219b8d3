package cli

import (
	"github.com/spf13/cobra"
)

func (a *app) demoVerb() *cobra.Command {
	return &cobra.Command{Use: "demo", GroupID: groupBook}
}
