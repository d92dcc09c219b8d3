package desk

import (
	"testing"

	"steeltally/templates"
)

// Every tag that comes with the program passes the check that a club's own ones get.
func TestOurOwnTagsAreSound(t *testing.T) {
	library := templates.Embedded()
	if len(library.Tags()) < 8 {
		t.Fatalf("only %d tags", len(library.Tags()))
	}
	for _, name := range library.Tags() {
		source, err := library.TagSource(name)
		if err != nil {
			t.Fatal(err)
		}
		check := CheckTemplate(Options{Book: t.TempDir()}, name+".toml", source)
		if len(check.Faults) != 0 || len(check.Sheets) == 0 {
			t.Errorf("%s: %q, fits on %q", name, check.Faults, check.Sheets)
		}
	}
}
