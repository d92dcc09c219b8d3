//go:build outside

package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"golang.org/x/sys/unix"

	"steeltally/cmd/steeltally/internal/cli"
)

// A book on a disk that is mounted for reading only, a write-protected stick, is read by
// everything that reads; what records says that the disk is write-protected. It needs the
// right to mount.
func TestBookOnAWriteProtectedDisk(t *testing.T) {
	disk, elsewhere := t.TempDir(), t.TempDir()
	if err := unix.Mount("tmpfs", disk, "tmpfs", 0, "size=8m"); err != nil {
		t.Fatal("no small disk can be mounted: ", err)
	}
	defer func() {
		if err := unix.Unmount(disk, 0); err != nil {
			t.Error(err)
		}
	}()
	stick, desk := filepath.Join(disk, "book"), filepath.Join(elsewhere, "book")
	in := func(name string) string { return filepath.Join(elsewhere, name) }
	owned(t, stick,
		[]string{"init", "--club", "Skarn Harbour Terns", "--station", "1"},
		[]string{"player", "add", "--sweater", "17", "--name", "Ansgar Lindqvarn", "--position", "defence"},
		[]string{"stockin", "runner", "--model", "Skua R", "--size", "280"})
	owned(t, desk, []string{"init", "--club", "Skarn Harbour Terns", "--station", "2"})
	if err := unix.Mount("", disk, "", unix.MS_REMOUNT|unix.MS_RDONLY, ""); err != nil {
		t.Fatal(err)
	}
	owned(t, stick,
		[]string{"history", "17", "--json"}, []string{"history", "R1-1-77"}, []string{"verify", "--here"},
		[]string{"due"}, []string{"spares"}, []string{"work"}, []string{"player", "list"},
		[]string{"export", "--jsonl", in("all.jsonl")}, []string{"export", "--csv", in("tables")},
		[]string{"backup", in("terns.zip")}, []string{"rebuild", "--into", in("rebuilt")}, []string{"rebuild", "--from", stick, "--into", in("again")})
	owned(t, desk, []string{"merge", stick, "--other-club"})
	var said bytes.Buffer
	world := cli.World{
		Stdin: strings.NewReader(""), Stdout: &said, Stderr: &said,
		Now: func() time.Time { return fixedNow }, Getenv: func(string) string { return "" },
	}
	if code := cli.Main(context.Background(), world, []string{"stockin", "bin", "--name", "Bin 9", "--book", stick}); code == 0 || !strings.Contains(said.String(), "this disk is write-protected") {
		t.Errorf("exit code %d: %s", code, said.String())
	}
	if left, err := os.ReadDir(elsewhere); err != nil || len(left) != 6 {
		t.Error(left, err)
	}
}
