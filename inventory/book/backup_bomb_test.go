package book_test

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"errors"
	"hash/crc32"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

// packed is one file in a zip, with what the zip says of it.
type packed struct {
	header zip.FileHeader
	data   []byte
}

// blanks are a lot of them in a few bytes, promised truly.
func blanks(name string, bytes int) packed {
	return deflated(name, make([]byte, bytes), uint64(bytes))
}

// deflated is a text, with a promise of how long it is.
func deflated(name string, text []byte, promised uint64) packed {
	var out bytes.Buffer
	w, err := flate.NewWriter(&out, flate.BestCompression)
	if err == nil {
		_, err = w.Write(text)
	}
	if err = errors.Join(err, w.Close()); err != nil {
		panic(err) // a buffer takes everything
	}
	return packed{zip.FileHeader{
		Name: name, Method: zip.Deflate, CRC32: crc32.ChecksumIEEE(text), CompressedSize64: uint64(out.Len()), UncompressedSize64: promised,
	}, out.Bytes()}
}

// rezip writes the files of a backup anew, some of them changed, with others behind.
func rezip(t *testing.T, from string, change func(*packed), more ...packed) string {
	t.Helper()
	old, err := zip.OpenReader(from)
	if err != nil {
		t.Fatal(err)
	}
	defer old.Close()
	var files []packed
	for _, f := range old.File {
		in, err := f.OpenRaw()
		if err != nil {
			t.Fatal(err)
		}
		data, err := io.ReadAll(in)
		if err != nil {
			t.Fatal(err)
		}
		one := packed{f.FileHeader, data}
		change(&one)
		files = append(files, one)
	}
	path := filepath.Join(t.TempDir(), "changed.zip")
	out, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	pack := zip.NewWriter(out)
	for _, f := range append(files, more...) {
		f.header.Flags &^= 8 // the sizes stand in front
		w, err := pack.CreateRaw(&f.header)
		if err == nil {
			_, err = w.Write(f.data)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := errors.Join(pack.Close(), out.Close()); err != nil {
		t.Fatal(err)
	}
	return path
}

// A backup that would unpack to far more than a record does is refused before anything
// of it is on the disk; one that says less than it holds is, too.
func TestBackupsThatUnpackTooFar(t *testing.T) {
	b := booktest.New(t)
	booktest.Record(t, b, booktest.Opening()...)
	good := filepath.Join(t.TempDir(), "good.zip")
	if _, err := b.Backup(good); err != nil {
		t.Fatal(err)
	}
	same := func(*packed) {}
	var line bytes.Buffer
	for line.Len() < 8<<20 {
		line.WriteString(`{"writer":"00000000000000c3","seq":1}` + "\n")
	}
	for name, c := range map[string]struct{ path, says string }{
		"blanks":       {rezip(t, good, same, blanks("photos/a", 64<<20)), "would unpack"},
		"a journal":    {rezip(t, good, func(p *packed) { swap(p, "journal.jsonl", deflated("journal.jsonl", line.Bytes(), uint64(line.Len()))) }), "would unpack"},
		"a manifest":   {rezip(t, good, func(p *packed) { swap(p, "manifest.json", blanks("manifest.json", 64<<20)) }), "would unpack"},
		"not as said":  {rezip(t, good, same, deflated("photos/a", make([]byte, 64<<20), 1000)), "photos/a"},
		"larger":       {rezip(t, good, same, packed{zip.FileHeader{Name: "photos/a", CompressedSize64: 1 << 30, UncompressedSize64: 1 << 30}, nil}), "larger than it is"},
		"lying across": {rezip(t, good, func(p *packed) { p.header.CompressedSize64 *= 1000 }), "larger than it is"},
	} {
		into := filepath.Join(t.TempDir(), "book")
		var broken *book.BackupError
		if _, err := book.Rebuild(into, c.path, "the test"); !errors.As(err, &broken) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: rebuilt: %v", name, err)
		}
		if _, err := os.Stat(into); err == nil {
			t.Errorf("%s: a book was made", name)
		}
		other := booktest.New(t)
		if _, err := other.Merge(book.Other{From: c.path, Program: "the test"}); err == nil && name != "blanks" && name != "not as said" {
			t.Errorf("%s: merged", name)
		}
	}
	if _, err := book.Rebuild(filepath.Join(t.TempDir(), "book"), rezip(t, good, same, blanks("templates/small.toml", 500_000)), "the test"); err != nil {
		t.Errorf("and a small file is refused, too: %v", err)
	}
}

// swap puts another file in the place of one.
func swap(p *packed, name string, other packed) {
	if p.header.Name == name {
		*p = other
	}
}
