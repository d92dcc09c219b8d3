package desk

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"
	"time"

	"steeltally/inventory"
)

// faultsName is the file beside this machine's settings that keeps what finds the faults
// of this program; it never grows beyond mostFaults bytes.
const (
	faultsName = "faults.txt"
	mostFaults = 1 << 20
)

// FaultError is a fault of this program that was caught, with where it is kept.
type FaultError struct {
	Cause error
	Kept  string // the file; empty: it could not be kept
}

func (e *FaultError) Error() string { return e.Cause.Error() }
func (e *FaultError) Unwrap() error { return e.Cause }

func (e *FaultError) hint() string {
	hint := "what was recorded before stands, nothing was recorded after it: steeltally history shows it"
	if e.Kept != "" {
		hint += "; what finds the fault is in " + e.Kept
	}
	return hint
}

// KeepFault keeps what is needed to find a fault of this program, where an error is one;
// any other error stays as it is. Doing is what was asked for.
func KeepFault(o Options, doing string, err error) error {
	var defect *inventory.Defect
	if !errors.As(err, &defect) || isA[*FaultError](err) {
		return err
	}
	fault := &FaultError{Cause: err}
	failed := inventory.Guard(func() (err error) {
		fault.Kept, err = o.keepFault(doing, defect)
		return err
	})
	if failed != nil {
		fault.Kept = ""
	}
	return fault
}

// keepFault adds a fault to the file, unless it is there already.
func (o Options) keepFault(doing string, defect *inventory.Defect) (file string, err error) {
	if o.Machine == "" {
		return "", nil
	}
	file = filepath.Join(filepath.Dir(o.Machine), faultsName)
	if err := os.MkdirAll(filepath.Dir(file), 0o700); err != nil {
		return "", err
	}
	before, err := os.ReadFile(file)
	if err == nil && strings.Contains(string(before), defect.Trail) {
		return file, nil
	}
	mode := os.O_APPEND
	if len(before) > mostFaults {
		mode = os.O_TRUNC
	}
	kept, err := os.OpenFile(file, os.O_WRONLY|os.O_CREATE|mode, 0o600)
	if err != nil {
		return "", err
	}
	_, err = fmt.Fprintf(kept, "%s, %s: %s\n%s\n%s\n\n", o.Now().UTC().Format(time.RFC3339), version(), doing, defect.Cause, defect.Trail)
	return file, errors.Join(err, kept.Close())
}

// version names the program's state, as the builder noted it.
func version() string {
	if build, ok := debug.ReadBuildInfo(); ok {
		for _, setting := range build.Settings {
			if setting.Key == "vcs.revision" {
				return "commit " + setting.Value
			}
		}
	}
	return "commit not known"
}

// keepUnworked keeps the faults because of which some could not be worked out.
func (o Options) keepUnworked(doing string, list []inventory.Unworked) {
	for i := range list {
		list[i].Cause = KeepFault(o, doing+" of "+list[i].Whose(), list[i].Cause)
	}
}

// keepOne is keepUnworked for one, where there is one.
func (d *Desk) keepOne(doing string, one *inventory.Unworked) {
	if one != nil {
		one.Cause = KeepFault(d.options, doing+" of "+one.Whose(), one.Cause)
	}
}

// UnworkedHint is what can be done about something that could not be worked out.
func UnworkedHint(u inventory.Unworked) string {
	var fault *FaultError
	if errors.As(u.Cause, &fault) && fault.Kept != "" {
		return u.Hint() + "; what finds the fault is in " + fault.Kept
	}
	return u.Hint()
}
