package spool

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"
	"golang.org/x/sys/unix"

	"steeltally/geometry"
)

// Settings are what belongs to a machine: its printers, and the first free label of
// each part-used sheet.
type Settings struct {
	Printers []Printer
	Starts   map[string]int
}

// UnknownPrinter says that a machine has no printer of a name.
type UnknownPrinter struct {
	Name  string
	Known []string
}

func (e *UnknownPrinter) Error() string {
	if len(e.Known) == 0 {
		return fmt.Sprintf("no printer is set up on this machine, so none is called %q", e.Name)
	}
	return fmt.Sprintf("no printer is called %q; there are %s", e.Name, strings.Join(e.Known, ", "))
}

// Printer is the printer of a name, or an *UnknownPrinter error.
func (s *Settings) Printer(name string) (*Printer, error) {
	at := slices.IndexFunc(s.Printers, func(p Printer) bool { return p.Name == name })
	if at < 0 {
		unknown := &UnknownPrinter{Name: name}
		for _, p := range s.Printers {
			unknown.Known = append(unknown.Known, p.Name)
		}
		return nil, unknown
	}
	return &s.Printers[at], nil
}

// Put adds a printer, or takes the place of the one with its name.
func (s *Settings) Put(p Printer) {
	if at := slices.IndexFunc(s.Printers, func(o Printer) bool { return o.Name == p.Name }); at >= 0 {
		s.Printers[at] = p
		return
	}
	s.Printers = append(s.Printers, p)
}

// Remove takes a printer away.
func (s *Settings) Remove(name string) error {
	if _, err := s.Printer(name); err != nil {
		return err
	}
	s.Printers = slices.DeleteFunc(s.Printers, func(p Printer) bool { return p.Name == name })
	return nil
}

// Start is the first free label of a sheet, from 1, and whether it is a remembered one.
func (s Settings) Start(sheet string) (start int, remembered bool) {
	if start := s.Starts[sheet]; start > 0 {
		return start, true
	}
	return 1, false
}

// SetStart remembers the first free label of a sheet.
func (s *Settings) SetStart(sheet string, start int) {
	if s.Starts == nil {
		s.Starts = map[string]int{}
	}
	s.Starts[sheet] = start
}

func (s Settings) check() error {
	for _, p := range s.Printers {
		if err := p.check(); err != nil {
			return err
		}
	}
	return nil
}

// written is the file as a person may read and write it.
type written struct {
	Printer []writtenPrinter `toml:"printer"`
	Start   map[string]int   `toml:"first_free_label,omitempty"`
}

type writtenPrinter struct {
	Name   string  `toml:"name"`
	Queue  string  `toml:"queue"`
	Sheet  string  `toml:"sheet"`
	DPI    int     `toml:"dpi"`
	Right  float64 `toml:"prints_right_by_mm"`
	Down   float64 `toml:"prints_down_by_mm"`
	Across float64 `toml:"scale_across"`
	Along  float64 `toml:"scale_along"`
}

// Load reads the settings in a file; where there is none they are empty.
func Load(path string) (Settings, error) {
	source, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return Settings{}, nil
	}
	if err != nil {
		return Settings{}, err
	}
	var w written
	if _, err := toml.Decode(string(source), &w); err != nil {
		return Settings{}, fmt.Errorf("the machine's settings in %s can't be read: %w", path, err)
	}
	settings := w.settings()
	if err := settings.check(); err != nil {
		return Settings{}, fmt.Errorf("the machine's settings in %s: %w", path, err)
	}
	return settings, nil
}

func (w written) settings() Settings {
	settings := Settings{Starts: w.Start}
	for _, p := range w.Printer {
		settings.Printers = append(settings.Printers, Printer{
			Name: p.Name, Queue: p.Queue, Sheet: p.Sheet, DPI: geometry.DPI(p.DPI),
			Offset: Offset{geometry.Millimetre(p.Right), geometry.Millimetre(p.Down), p.Across, p.Along},
		})
	}
	return settings
}

func (s Settings) written() written {
	w := written{Start: s.Starts}
	for _, p := range s.Printers {
		w.Printer = append(w.Printer, writtenPrinter{
			p.Name, p.Queue, p.Sheet, int(p.DPI),
			float64(p.Right), float64(p.Down), orOne(p.Across), orOne(p.Along),
		})
	}
	return w
}

// Change changes the settings in a file, alone among all programs that do. The file
// is there whole, old or new, at every instant.
func Change(path string, change func(*Settings) error) error {
	if path == "" {
		return errors.New("this machine has no place for settings: set HOME, or STEELTALLY_MACHINE to a folder")
	}
	folder := filepath.Dir(path)
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return err
	}
	lock, err := os.OpenFile(path+".lock", os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return err
	}
	defer lock.Close() // lets go of the lock
	if err := unix.Flock(int(lock.Fd()), unix.LOCK_EX); err != nil {
		return err
	}
	clearLeft(path)
	settings, err := Load(path)
	if err != nil {
		return err
	}
	if err := change(&settings); err != nil {
		return err
	}
	if err := settings.check(); err != nil {
		return err
	}
	return settings.save(path)
}

// clearLeft removes what a kill left of settings in the making; who calls it has the lock.
func clearLeft(path string) {
	entries, err := os.ReadDir(filepath.Dir(path))
	if err != nil {
		return
	}
	for _, entry := range entries {
		if strings.HasPrefix(entry.Name(), makingName(path)) {
			os.Remove(filepath.Join(filepath.Dir(path), entry.Name()))
		}
	}
}

// makingName is how settings in the making begin.
func makingName(path string) string { return "." + filepath.Base(path) + ".making-" }

func (s Settings) save(path string) error {
	text := bytes.NewBufferString("# steeltally: printers of this machine, and where part-used sheets go on\n")
	if err := toml.NewEncoder(text).Encode(s.written()); err != nil {
		return err
	}
	file, err := os.CreateTemp(filepath.Dir(path), makingName(path)+"*")
	if err != nil {
		return err
	}
	defer os.Remove(file.Name()) // gone once it is renamed
	if _, err = file.Write(text.Bytes()); err == nil {
		err = file.Sync()
	}
	if err = errors.Join(err, file.Close()); err != nil {
		return err
	}
	return os.Rename(file.Name(), path)
}
