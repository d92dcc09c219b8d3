package cli

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"steeltally/cmd/steeltally/internal/desk"
)

// plainWords says in words of the bench what the command library found wrong with a
// command line; any other error stays as it is.
func plainWords(cmd *cobra.Command, err error) error {
	var (
		value   *pflag.InvalidValueError
		lacking *pflag.ValueRequiredError
		unknown *pflag.NotExistError
	)
	switch {
	case errors.As(err, &value):
		return &usageError{fmt.Errorf("--%s: %w", value.GetFlag().Name, plainValue(value))}
	case errors.As(err, &lacking):
		return usage("--%s: its value is missing", lacking.GetFlag().Name)
	case errors.As(err, &unknown):
		typed := "--" + unknown.GetSpecifiedName()
		if short := unknown.GetSpecifiedShortnames(); short != "" {
			typed = "-" + short
		}
		return usage("%s has no flag %s", verbOf(cmd), typed)
	}
	for _, known := range said {
		if found := known.pattern.FindStringSubmatch(err.Error()); found != nil {
			return known.words(cmd, found[1:])
		}
	}
	return err
}

// plainValue says what is wrong with a flag's value.
func plainValue(value *pflag.InvalidValueError) error {
	var number *strconv.NumError
	switch {
	case !errors.As(value.Unwrap(), &number):
		return value.Unwrap()
	case value.GetFlag().Value.Type() == "bool":
		return fmt.Errorf("%q is neither true nor false; the flag alone is yes", value.GetValue())
	case errors.Is(number.Err, strconv.ErrRange):
		return fmt.Errorf("%s is too large a number", value.GetValue())
	case value.GetFlag().Value.Type() == "int":
		return fmt.Errorf("%q is not a whole number", value.GetValue())
	}
	return fmt.Errorf("%q is not a number", value.GetValue())
}

// said are the errors of the command library that have no type.
var said = []struct {
	pattern *regexp.Regexp
	words   func(cmd *cobra.Command, parts []string) error
}{
	{regexp.MustCompile(`^(?:accepts|requires) .*arg\(s\)`), func(cmd *cobra.Command, _ []string) error { return wordCount(cmd) }},
	{regexp.MustCompile(`^unknown command "(.*)" for`), func(cmd *cobra.Command, parts []string) error {
		if !cmd.HasAvailableSubCommands() {
			return wordCount(cmd)
		}
		return &usageError{&unknownVerbError{cmd, parts[0]}}
	}},
	{regexp.MustCompile(`^required flag\(s\) "(.*)" not set$`), func(cmd *cobra.Command, parts []string) error {
		return usage("%s: %s missing", verbOf(cmd), flagsAre(strings.Split(parts[0], `", "`)))
	}},
	{regexp.MustCompile(`^at least one of the flags in the group \[(.*)\] is required$`), func(cmd *cobra.Command, parts []string) error {
		return usage("%s needs one of %s", verbOf(cmd), list(dashed(strings.Fields(parts[0]))))
	}},
	{regexp.MustCompile(`they must all be set; missing \[(.*)\]$`), func(cmd *cobra.Command, parts []string) error {
		return usage("%s: %s missing", verbOf(cmd), flagsAre(strings.Fields(parts[0])))
	}},
	{regexp.MustCompile(`none of the others can be; \[(.*)\] were all set$`), func(_ *cobra.Command, parts []string) error {
		return usage("%s do not go together", strings.Join(dashed(strings.Fields(parts[0])), " and "))
	}},
}

// unknownVerbError says that there is no such verb.
type unknownVerbError struct {
	under *cobra.Command
	typed string
}

func (e *unknownVerbError) Error() string {
	return fmt.Sprintf("%s has no verb %q", verbOf(e.under), e.typed)
}

// verbOf is a verb as it is typed after the program's name.
func verbOf(cmd *cobra.Command) string { return strings.TrimPrefix(cmd.CommandPath(), "steeltally ") }

func dashed(flags []string) []string {
	for i := range flags {
		flags[i] = "--" + flags[i]
	}
	return flags
}

func flagsAre(flags []string) string {
	if len(flags) == 1 {
		return "--" + flags[0] + " is"
	}
	return strings.Join(dashed(flags), " and ") + " are"
}

// wordCount names the words that a verb lacks, or the first that it has no use for.
func wordCount(cmd *cobra.Command) error {
	typed := cmd.Flags().Args()
	var most int
	for _, word := range strings.Fields(cmd.Use)[1:] {
		if strings.HasPrefix(word, "-") {
			break
		}
		if most >= len(typed) && !strings.HasPrefix(word, "[") {
			return usage("%s: %s is missing", verbOf(cmd), strings.ReplaceAll(strings.TrimSuffix(word, "…"), "|", " or "))
		}
		most++
	}
	if most >= len(typed) {
		return usage("%s: a word is missing", verbOf(cmd))
	}
	return usage("%s: %q is one word too many", verbOf(cmd), typed[most])
}

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
