package desk

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/sys/unix"

	"steeltally/inventory"
)

func text(words string) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := io.WriteString(w, words)
		return err
	}
}

// hidden are the hidden files in a folder.
func hidden(t *testing.T, folder string) []string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	must(t, err)
	var names []string
	for _, entry := range entries {
		if strings.HasPrefix(entry.Name(), ".") {
			names = append(names, entry.Name())
		}
	}
	return names
}

func reads(t *testing.T, path, want string) {
	t.Helper()
	got, err := os.ReadFile(path)
	must(t, err)
	if string(got) != want {
		t.Errorf("%s holds %q, want %q", filepath.Base(path), got, want)
	}
}

func TestStandardOutputByADash(t *testing.T) {
	t.Chdir(t.TempDir())
	var out bytes.Buffer
	must(t, outlet{path: StandardStream, stdout: &out}.write(text("tags")))
	if out.String() != "tags" {
		t.Errorf("%q", &out)
	}
	if _, err := os.Lstat(StandardStream); err == nil {
		t.Error("a file of that name was made")
	}
}

// A link stays, and what it points to is written.
func TestALinkIsWrittenThrough(t *testing.T) {
	folder, link := t.TempDir(), filepath.Join(t.TempDir(), "link.pdf")
	file := filepath.Join(folder, "tags.pdf")
	must(t, os.WriteFile(file, []byte("old"), 0o600))
	must(t, os.Symlink(file, link))
	must(t, writeWhole(link, text("new")))
	reads(t, file, "new")
	if target, err := os.Readlink(link); err != nil || target != file {
		t.Errorf("the link leads to %q, %v", target, err)
	}
	must(t, os.Remove(file))
	refusedWith(t, writeWhole(link, text("new")), "is a link to "+file+", which is not there")
}

func refusedWith(t *testing.T, err error, want string) {
	t.Helper()
	var bad *inventory.BadValue
	if !errors.As(err, &bad) || !strings.Contains(err.Error(), want) || bad.Hint == "" {
		t.Errorf("%v, want %q and what to do", err, want)
	}
}

func TestFoldersAreNamed(t *testing.T) {
	folder := t.TempDir()
	refusedWith(t, writeWhole(folder, text("x")), "is a folder")
	refusedWith(t, writeWhole(filepath.Join(folder, "none", "x.pdf"), text("x")), "there is no folder "+filepath.Join(folder, "none"))
}

// A link into a book's folder is the book's folder.
func TestALinkIntoABookIsRefused(t *testing.T) {
	s := newSeason(t, 0)
	link := filepath.Join(t.TempDir(), "x.pdf")
	target := filepath.Join(s.path, "journal.jsonl")
	must(t, os.Symlink(target, link))
	before, err := os.ReadFile(target)
	must(t, err)
	if err := writeWhole(link, text("x")); FailureOf(err) != Refused {
		t.Errorf("%v", err)
	}
	reads(t, target, string(before))
}

// A device and a pipe are written to and stay what they are.
func TestDevicesAndPipesStay(t *testing.T) {
	pipe := filepath.Join(t.TempDir(), "pipe")
	must(t, unix.Mkfifo(pipe, 0o600))
	read := make(chan string)
	go func() {
		f, err := os.Open(pipe)
		if err != nil {
			read <- err.Error()
			return
		}
		got, _ := io.ReadAll(f)
		read <- string(got)
	}()
	must(t, writeWhole(pipe, text("tags")))
	if got := <-read; got != "tags" {
		t.Errorf("the pipe gave %q", got)
	}
	for _, path := range []string{pipe, "/dev/null"} {
		before, err := os.Lstat(path)
		must(t, err)
		if path != pipe {
			must(t, writeWhole(path, text("tags")))
		}
		if after, err := os.Lstat(path); err != nil || after.Mode() != before.Mode() || !os.SameFile(before, after) {
			t.Errorf("%s was replaced: %v, %v", path, after, err)
		}
	}
	if err := writeWhole("/dev/full", text("tags")); !errors.Is(err, unix.ENOSPC) || !strings.HasPrefix(err.Error(), "/dev/full can't be written: ") {
		t.Errorf("a full disk: %v", err)
	}
}

// What a kill left is cleared by who writes there next; what another is making is not.
func TestWhatAKillLeftIsCleared(t *testing.T) {
	folder := t.TempDir()
	left := filepath.Join(folder, ".steeltally.making-123")
	mine := filepath.Join(folder, ".steeltally-notes")
	must(t, os.WriteFile(left, []byte("half"), 0o600))
	must(t, os.WriteFile(filepath.Join(folder, ".terns.zip.making-5"), []byte("half"), 0o600)) // a backup's
	must(t, os.WriteFile(mine, []byte("mine"), 0o600))
	must(t, writeWhole(filepath.Join(folder, "a.pdf"), func(w io.Writer) error {
		if names := hidden(t, folder); len(names) != 2 {
			t.Errorf("while a file is in the making: %q", names)
		}
		return writeWhole(filepath.Join(folder, "b.pdf"), text("b")) // another program's
	}))
	if names := hidden(t, folder); len(names) != 1 || names[0] != ".steeltally-notes" {
		t.Errorf("left behind: %q", names)
	}
	reads(t, filepath.Join(folder, "b.pdf"), "b")
	if _, err := os.Stat(filepath.Join(folder, "a.pdf")); err != nil {
		t.Errorf("the file in the making was cleared by another: %v", err)
	}
	failed := errors.New("no more ink")
	if err := writeWhole(filepath.Join(folder, "b.pdf"), func(io.Writer) error { return failed }); !errors.Is(err, failed) {
		t.Errorf("%v", err)
	}
	reads(t, filepath.Join(folder, "b.pdf"), "b")
	if names := hidden(t, folder); len(names) != 1 {
		t.Errorf("after a failure: %q", names)
	}
}

// What the program has open is written to; a file in memory is one like any other.
func TestWhatIsOfTheSystem(t *testing.T) {
	for path, want := range map[string]bool{
		"/dev/stderr": true, "/dev/fd/2": true, "/proc/self/fd/1": true, "/dev/shm/book/tags.pdf": false, "/tmp/tags.pdf": false, "tags.pdf": false,
	} {
		if ofSystem(path) != want {
			t.Errorf("%s: %v", path, !want)
		}
	}
}
