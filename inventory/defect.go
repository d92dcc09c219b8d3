package inventory

import (
	"fmt"
	"path/filepath"
	"runtime"
	"strings"
)

// Defect is a fault of this program, caught where it was at work.
type Defect struct {
	Cause string // what went wrong, in the program's own words
	Trail string // where the program was, innermost first: for who mends it, on no screen
}

func (d *Defect) Error() string { return "a fault in this program: " + d.Cause }

// Guard carries out a step; where the program itself is at fault there, that is an error
// as any other, a *Defect, and what others have asked for goes on.
func Guard(step func() error) (err error) {
	defer func() {
		if cause := recover(); cause != nil {
			err = defectOf(cause)
		}
	}()
	return step()
}

// defectOf is a fault with its trail; one of another goroutine brings its own.
func defectOf(cause any) *Defect {
	if known, ok := cause.(interface{ Trail() string }); ok {
		return &Defect{Cause: fmt.Sprint(cause), Trail: known.Trail()}
	}
	return &Defect{Cause: fmt.Sprint(cause), Trail: trail()}
}

// mostFrames is how far back a trail goes: that is enough to find a fault.
const mostFrames = 40

// trail is where the program was; the same fault leaves the same trail.
func trail() string {
	const own = 4 // runtime.Callers, this function, the one before it, and the one that recovered
	calls := make([]uintptr, mostFrames)
	frames := runtime.CallersFrames(calls[:runtime.Callers(own, calls)])
	var lines []string
	for more := true; more; {
		var frame runtime.Frame
		frame, more = frames.Next()
		lines = append(lines, fmt.Sprintf("%s (%s:%d)", frame.Function, filepath.Base(frame.File), frame.Line))
	}
	return strings.Join(lines, "\n")
}
