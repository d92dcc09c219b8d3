package spool

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"sync"
	"testing"
)

func bench() Printer {
	return Printer{Name: "bench", Queue: "tags_1", Sheet: "roll-70x35", DPI: 203, Offset: Offset{0.4, -0.2, 0.998, 1.001}}
}

// What was set is there again, to the last digit.
func TestSettingsSurviveTheFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "made", "machine.toml")
	if empty, err := Load(path); err != nil || len(empty.Printers) != 0 {
		t.Fatalf("a machine without settings: %+v, %v", empty, err)
	}
	err := Change(path, func(s *Settings) error {
		s.Put(Printer{Name: "office", Queue: "office", Sheet: "a4-3x8", DPI: 600, Offset: Offset{Across: 1, Along: 1}})
		s.Put(bench())
		s.SetStart("a4-3x8", 5)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	settings, err := Load(path)
	if err != nil {
		t.Fatal(err)
	}
	p, err := settings.Printer("bench")
	if err != nil || !reflect.DeepEqual(*p, bench()) {
		t.Errorf("bench is %+v, %v", p, err)
	}
	if start, remembered := settings.Start("a4-3x8"); start != 5 || !remembered {
		t.Errorf("a4-3x8 starts at %d, %v", start, remembered)
	}
	if start, remembered := settings.Start("letter-3x10"); start != 1 || remembered {
		t.Errorf("a fresh sheet starts at %d, %v", start, remembered)
	}
}

func TestUnknownPrinterNamesThoseThereAre(t *testing.T) {
	settings := Settings{Printers: []Printer{bench()}}
	var unknown *UnknownPrinter
	if _, err := settings.Printer("benhc"); !errors.As(err, &unknown) || !strings.Contains(err.Error(), "bench") {
		t.Errorf("%v", err)
	}
	if err := settings.Remove("bench"); err != nil || len(settings.Printers) != 0 {
		t.Errorf("removed: %v, %v", settings.Printers, err)
	}
	if err := settings.Remove("bench"); !errors.As(err, &unknown) {
		t.Errorf("removed twice: %v", err)
	}
}

// A change that is refused leaves the file as it was.
func TestRefusedChangesLeaveTheFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "machine.toml")
	if err := Change(path, func(s *Settings) error { s.Put(bench()); return nil }); err != nil {
		t.Fatal(err)
	}
	before, _ := os.ReadFile(path)
	for name, spoil := range map[string]func(*Printer){
		"name":  func(p *Printer) { p.Name = "the bench" },
		"queue": func(p *Printer) { p.Queue = "-o raw" },
		"sheet": func(p *Printer) { p.Sheet = "" },
		"dpi":   func(p *Printer) { p.DPI = 72 },
		"scale": func(p *Printer) { p.Across = 0.5 },
	} {
		p := bench()
		spoil(&p)
		if err := Change(path, func(s *Settings) error { s.Put(p); return nil }); err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
	if after, _ := os.ReadFile(path); string(after) != string(before) {
		t.Error("the file was changed")
	}
	left, _ := filepath.Glob(filepath.Join(filepath.Dir(path), ".machine*"))
	if len(left) != 0 {
		t.Errorf("left behind: %v", left)
	}
}

func TestBrokenSettingsAreNamed(t *testing.T) {
	path := filepath.Join(t.TempDir(), "machine.toml")
	for _, text := range []string{"[[printer]\n", "[[printer]]\nname = \"bench\"\nqueue = \"b\"\nsheet = \"a4\"\ndpi = 20\n"} {
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if _, err := Load(path); err == nil || !strings.Contains(err.Error(), path) {
			t.Errorf("%q: %v", text, err)
		}
	}
}

// Changes at the same time are made one after another; none is lost.
func TestChangesAtOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "machine.toml")
	const writers = 16
	var wait sync.WaitGroup
	for i := range writers {
		wait.Add(1)
		go func() {
			defer wait.Done()
			if err := Change(path, func(s *Settings) error { s.SetStart(fmt.Sprint("sheet-", i), i+2); return nil }); err != nil {
				t.Error(err)
			}
		}()
	}
	wait.Wait()
	settings, err := Load(path)
	if err != nil || len(settings.Starts) != writers {
		t.Errorf("%d of %d changes kept, %v", len(settings.Starts), writers, err)
	}
}

// Settings in the making that a kill left are cleared by the next change.
func TestWhatAKillLeftIsCleared(t *testing.T) {
	path := filepath.Join(t.TempDir(), "machine.toml")
	left := filepath.Join(filepath.Dir(path), makingName(path)+"17")
	if err := os.WriteFile(left, []byte("half"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := Change(path, func(s *Settings) error { s.Put(bench()); return nil }); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(left); err == nil {
		t.Error("it is still there")
	}
}
