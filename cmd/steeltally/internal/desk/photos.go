package desk

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"steeltally/inventory"
)

const (
	photosFolder = "photos"
	mostPhoto    = 60 << 20 // bytes: more than any camera's picture
)

// keptPhotos are photographs in the book's folder, under the hash of what is in them.
type keptPhotos struct {
	names []string
	added []string // paths of those that were not there before
}

// keepPhotos copies photographs into the book's folder. The same picture is kept once.
func (d *Desk) keepPhotos(files []string) (keptPhotos, error) {
	var kept keptPhotos
	for _, file := range files {
		name, path, added, err := d.keepPhoto(file)
		if err != nil {
			kept.drop()
			return keptPhotos{}, err
		}
		kept.names = append(kept.names, name)
		if added {
			kept.added = append(kept.added, path)
		}
	}
	return kept, nil
}

func (d *Desk) keepPhoto(file string) (name, path string, added bool, err error) {
	picture, err := d.options.readPhoto(file)
	if err != nil {
		return "", "", false, err
	}
	kind := pictureKind(picture)
	if kind == "" {
		return "", "", false, &inventory.BadValue{Reason: file + " is no photograph that is known here", Hint: "save it as JPEG or PNG"}
	}
	hash := sha256.Sum256(picture)
	name = hex.EncodeToString(hash[:]) + "." + kind
	folder := filepath.Join(d.options.Book, photosFolder)
	path = filepath.Join(folder, name)
	if there, err := os.ReadFile(path); err == nil && bytes.Equal(there, picture) {
		return name, path, false, nil
	}
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return "", "", false, err
	}
	return name, path, true, writeWhole(path, func(w io.Writer) error {
		_, err := w.Write(picture)
		return err
	})
}

// readPhoto reads a photograph's file, or standard input.
func (o Options) readPhoto(file string) ([]byte, error) {
	from := o.Stdin
	if file != StandardStream || from == nil {
		f, err := os.Open(file)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		from = f
	}
	picture, err := io.ReadAll(io.LimitReader(from, mostPhoto+1))
	if len(picture) > mostPhoto {
		return nil, &inventory.BadValue{Reason: fmt.Sprintf("%s has more than %d million bytes: no photograph is so large", file, mostPhoto>>20), Hint: "save it smaller"}
	}
	return picture, err
}

// drop removes the photographs that were added for a record that did not come about.
func (k keptPhotos) drop() {
	for _, path := range k.added {
		os.Remove(path) // one that stays does no harm
	}
}

// pictureKind knows a picture's format by its first bytes (ISO/IEC 10918-1, PNG third
// edition, RFC 9649, ISO/IEC 14496-12); empty where it is none of them.
func pictureKind(data []byte) string {
	switch {
	case bytes.HasPrefix(data, []byte{0xFF, 0xD8, 0xFF}):
		return "jpg"
	case bytes.HasPrefix(data, []byte("\x89PNG\r\n\x1a\n")):
		return "png"
	case len(data) > 12 && string(data[:4]) == "RIFF" && string(data[8:12]) == "WEBP":
		return "webp"
	case len(data) > 12 && string(data[4:8]) == "ftyp":
		return "heic"
	}
	return ""
}
