package cli

import (
	"errors"
	"strings"

	"github.com/spf13/cobra"

	"steeltally/cmd/steeltally/internal/desk"
)

// refuseUnknown lets each verb that only has verbs under it refuse one that it does not
// have; alone it shows its help.
func refuseUnknown(cmd *cobra.Command) {
	if !cmd.Runnable() {
		cmd.Args, cmd.DisableFlagsInUseLine = cobra.NoArgs, true
		cmd.RunE = func(cmd *cobra.Command, _ []string) error { return cmd.Help() }
	}
	for _, sub := range cmd.Commands() {
		refuseUnknown(sub)
	}
}

// helpedError is a command line that can't be understood, with the help that shows how.
type helpedError struct {
	cause error
	hint  string
}

func (e *helpedError) Error() string { return e.cause.Error() }
func (e *helpedError) Unwrap() error { return e.cause }

// helped adds to a command line that can't be understood which help shows how, unless
// the error says itself what to do.
func helped(cmd *cobra.Command, err error) error {
	if err == nil {
		return nil
	}
	err = plainWords(cmd, err)
	if !isUsage(err) || desk.HintOf(err) != "" {
		return err
	}
	return &helpedError{err, usageHint(cmd, err)}
}

// usageHint names the help of the verb that was typed. What is none of the verbs under
// it may be meant for one.
func usageHint(cmd *cobra.Command, err error) string {
	help := func(cmd *cobra.Command) string {
		return "steeltally help" + strings.TrimPrefix(cmd.CommandPath(), "steeltally")
	}
	var unknown *unknownVerbError
	if !errors.As(err, &unknown) {
		return help(cmd) + " shows how"
	}
	cmd, typed := unknown.under, unknown.typed
	cmd.SuggestionsMinimumDistance = max(1, min(2, len(typed)/2))
	if near := cmd.SuggestionsFor(typed); len(near) > 0 {
		return "did you mean " + strings.Join(near, ", ") + "? " + help(cmd) + " lists the verbs"
	}
	return help(cmd) + " lists the verbs"
}

// helpVerb shows the help of a verb, and refuses what is none.
func helpVerb(root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use: "help [VERB…]", Short: "help about a verb", Args: cobra.ArbitraryArgs,
		RunE: func(_ *cobra.Command, args []string) error {
			verb, rest, err := root.Find(args)
			if err != nil || len(rest) > 0 {
				return &usageError{&unknownVerbError{verb, args[len(args)-max(1, len(rest))]}}
			}
			verb.InitDefaultHelpFlag()
			return verb.Help()
		},
	}
}
