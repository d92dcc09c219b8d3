package desk

import (
	"os"
	"path/filepath"
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
		file := filepath.Join(t.TempDir(), name+".toml")
		if err := os.WriteFile(file, source, 0o600); err != nil {
			t.Fatal(err)
		}
		check, err := CheckTemplate(Options{Book: t.TempDir()}, file)
		if err != nil || len(check.Faults) != 0 || len(check.Sheets) == 0 {
			t.Errorf("%s: %q, fits on %q, %v", name, check.Faults, check.Sheets, err)
		}
	}
}
