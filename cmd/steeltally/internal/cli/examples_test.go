package cli

import (
	"os"
	"regexp"
	"testing"

	"github.com/spf13/cobra"

	"steeltally/inventory"
)

// numbered is what looks like a piece's number, short or long.
var numbered = regexp.MustCompile(`\b(?:[RHPSTBYA][0-9]-[0-9]+-[0-9]{2}|[1-79][0-9]{9})\b`)

// Every number in a help text or in the README can be typed as it stands: its check
// digits are right.
func TestNumbersInExamplesAreSound(t *testing.T) {
	readme, err := os.ReadFile("../../../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	texts := map[string]string{"README.md": string(readme)}
	var walk func(*cobra.Command)
	walk = func(cmd *cobra.Command) {
		texts[cmd.CommandPath()] = cmd.Long + "\n" + cmd.Example
		for _, sub := range cmd.Commands() {
			walk(sub)
		}
	}
	walk((&app{}).root())
	found := 0
	for where, text := range texts {
		for _, number := range numbered.FindAllString(text, -1) {
			found++
			if _, err := inventory.ParseNumber(number); err != nil {
				t.Errorf("%s: %s: %v", where, number, err)
			}
		}
	}
	if found < 30 {
		t.Errorf("only %d numbers were found", found)
	}
}
