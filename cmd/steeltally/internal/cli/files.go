package cli

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// writesFile marks a flag whose value is a file to be written.
const writesFile = "writes-file"

// fileFlag adds a flag for a file to be written; "-" is standard output.
func fileFlag(cmd *cobra.Command, value *string, name, usage string) {
	cmd.Flags().StringVar(value, name, "", usage+"; - is standard output")
	cmd.Flags().SetAnnotation(name, writesFile, []string{"yes"})
}

// streams settles what goes to standard output: a file that was asked for there, and then
// words to standard error, or else words.
func (a *app) streams(cmd *cobra.Command, _ []string) error {
	if cmd.Flags().Changed("key") && strings.TrimSpace(a.key) == "" {
		return usage("a key was given that is empty: leave --key out, or give one that is this entry's own")
	}
	if cmd.Flags().Changed("at") && strings.TrimSpace(a.at) == "" {
		return usage("a time was given that is empty: leave --at out for now, or say it, such as 2025-11-04T09:00")
	}
	var wrong error
	cmd.Flags().VisitAll(func(flag *pflag.Flag) {
		if flag.Annotations[writesFile] == nil || !isStandardOutput(flag.Value.String()) {
			return
		}
		if a.json {
			wrong = usage("--%s - and --json both write to standard output: name a file, or leave --json out", flag.Name)
			return
		}
		flag.Value.Set(desk.StandardStream)
		a.voice.out = a.world.Stderr
	})
	return wrong
}

// isStandardOutput knows standard output by its names, so that it is written to like "-".
func isStandardOutput(name string) bool {
	switch name {
	case desk.StandardStream, "/dev/stdout", "/dev/fd/1", "/proc/self/fd/1":
		return true
	}
	return false
}

// sayFile names a file that was written.
func sayFile(file string) string {
	if file == desk.StandardStream {
		return "standard output"
	}
	return file
}

// open opens a file that is to be read, "-" is standard input, and says what to call it.
func (a *app) open(file string) (from io.ReadCloser, name string, err error) {
	if file == desk.StandardStream {
		text, err := io.ReadAll(a.world.Stdin)
		a.heard = append(a.heard, string(text))
		return io.NopCloser(bytes.NewReader(text)), "standard input", err
	}
	f, err := os.Open(file)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, file, fmt.Errorf("%s: there is no such file: check its name and its folder", file)
	}
	if err != nil {
		return nil, file, err
	}
	if info, err := f.Stat(); err == nil && info.IsDir() {
		f.Close()
		return nil, file, &inventory.BadValue{Reason: file + " is a folder", Hint: "name a file in it"}
	}
	return f, file, nil
}

// read reads a file whole, "-" is standard input, and says what to call it.
func (a *app) read(file string) (text []byte, name string, err error) {
	from, name, err := a.open(file)
	if err != nil {
		return nil, name, err
	}
	defer from.Close()
	text, err = io.ReadAll(from)
	return text, name, err
}

// asFile gives a path for what has to be read here and there, such as a backup: that of a
// file, or one for standard input, of which nothing is left behind.
func (a *app) asFile(file string, use func(path string) error) error {
	if file != desk.StandardStream {
		return use(file)
	}
	kept, err := os.CreateTemp("", "steeltally-")
	if err != nil {
		return err
	}
	defer kept.Close()
	if err := os.Remove(kept.Name()); err != nil {
		return err
	}
	if _, err := io.Copy(kept, a.world.Stdin); err != nil {
		return fmt.Errorf("standard input can't be read: %w", err)
	}
	return use(fmt.Sprintf("/dev/fd/%d", kept.Fd()))
}

// heard is standard output, with whether everything got there.
type heard struct {
	io.Writer
	err error // the first one
}

func (h *heard) Write(text []byte) (int, error) {
	n, err := h.Writer.Write(text)
	if err != nil && h.err == nil {
		h.err = err
	}
	return n, err
}

// unheardError says that what was to be said did not get out.
type unheardError struct {
	cause  error
	stands string // what was done all the same; empty: nothing
}

func (e *unheardError) Error() string {
	cause := e.cause
	if system := new(fs.PathError); errors.As(cause, &system) {
		cause = system.Err
	}
	return fmt.Sprintf("standard output can't be written: %v", cause)
}

func (e *unheardError) Unwrap() error { return e.cause }

func (e *unheardError) hint() string {
	if e.stands != "" {
		return e.stands
	}
	return "make room there, or let it go somewhere else"
}

// stands keeps what was done last, to say it where nothing else gets out.
func (v *voice) stands(what string) { v.standing.Store(what) }

// allHeard is why some of what was said did not get out; nil where all of it did.
func (v *voice) allHeard(out *heard) error {
	if out.err == nil {
		return nil
	}
	stands, _ := v.standing.Load().(string)
	return &unheardError{out.err, stands}
}
