package desk

import (
	"errors"
	"io"
	"os"
	"path/filepath"

	"steeltally/inventory/book"
)

// writeWhole writes a file beside its place and moves it there when it is whole.
func writeWhole(path string, write func(io.Writer) error) error {
	if err := book.CheckOutside(path); err != nil {
		return err
	}
	file, err := os.CreateTemp(filepath.Dir(path), ".steeltally-*")
	if err != nil {
		return err
	}
	defer os.Remove(file.Name()) // gone once it is renamed
	if err = write(file); err == nil {
		err = file.Sync()
	}
	if err = errors.Join(err, file.Close()); err != nil {
		return err
	}
	return os.Rename(file.Name(), path)
}
