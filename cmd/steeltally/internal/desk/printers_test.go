package desk

import (
	"context"
	"os"
	"path/filepath"
	"testing"
)

// Whoever breaks a command off breaks off what it waits for at the print server, too.
func TestWhatWaitsForAPrinterEndsWithTheCommand(t *testing.T) {
	dir := t.TempDir()
	answers := "#!/bin/sh\necho 'printer bench is idle.  enabled since Wed'\necho 'bench accepting requests since Wed'\n"
	if err := os.WriteFile(filepath.Join(dir, "lpstat"), []byte(answers), 0o700); err != nil {
		t.Fatal(err)
	}
	t.Setenv("PATH", dir+":"+os.Getenv("PATH"))
	o := Options{Machine: filepath.Join(dir, "machine"), Stands: func(string) {}}
	if _, err := AddPrinter(o, Printer{Name: "bench", Queue: "bench", Sheet: "roll-70x35", DPI: 203}); err != nil {
		t.Fatal(err)
	}
	ended, end := context.WithCancel(t.Context())
	end()
	for until, ready := range map[context.Context]bool{t.Context(): true, ended: false} {
		o.Until = until
		printers, err := Printers(o)
		if err != nil || len(printers) != 1 || (printers[0].State == "ready") != ready {
			t.Errorf("ready: want %v, got %+v, %v", ready, printers, err)
		}
	}
}
