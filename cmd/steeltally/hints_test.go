package main

import (
	"bytes"
	"context"
	"os"
	"regexp"
	"strings"

	"steeltally/cmd/steeltally/internal/cli"
)

// wrongHints is the file, named by the environment, in which a script's run of the program
// notes each flag of a hint that the verb which was typed does not have.
const wrongHints = "STEELTALLY_TEST_WRONG_HINTS"

// A hint's line is indented; a flag in it belongs to the verb that was typed, unless a
// command line is spelled before it.
var (
	hintLine   = regexp.MustCompile(`(?m)^ {6,12}(\S.*)$`)
	spelled    = regexp.MustCompile(`\b(?:steeltally|custody|rebuild|setaside) [^;,]*`)
	flagInHint = regexp.MustCompile(`--[a-z][a-z-]+`)
)

// noteWrongHints looks through what was said to a person on standard error.
func noteWrongHints(args []string, said string) {
	for _, hint := range hintLine.FindAllStringSubmatch(said, -1) {
		for _, flag := range flagInHint.FindAllString(spelled.ReplaceAllString(hint[1], ""), -1) {
			if help := helpOf(args); !regexp.MustCompile(flag + `\b`).MatchString(help) {
				note(strings.Join(args, " ") + ": " + hint[1])
			}
		}
	}
}

// helpOf is the help of the verb that a command line begins with.
func helpOf(args []string) string {
	for words := min(3, len(args)); words > 0; words-- {
		var out bytes.Buffer
		w := world()
		w.Stdout, w.Stderr = &out, &bytes.Buffer{}
		if cli.Main(context.Background(), w, append([]string{"help"}, args[:words]...)) == 0 {
			return out.String()
		}
	}
	return ""
}

func note(fault string) {
	file, err := os.OpenFile(os.Getenv(wrongHints), os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600)
	if err != nil {
		panic(err)
	}
	defer file.Close()
	file.WriteString(fault + "\n")
}
