package book

import (
	"archive/zip"
	"fmt"
	"os"
)

// What a packed file can come to. Journals shrink to a tenth, measured; a file of
// blanks that is small does no harm.
const (
	mostInflated   = 50
	alwaysUnpacked = 1 << 20
)

// openBackup opens a backup, unless its files promise more than a record can come to.
// What a file then unpacks to beyond its promise is an error when it is read.
func openBackup(path string) (*zip.ReadCloser, error) {
	pack, err := zip.OpenReader(path)
	if err != nil {
		return nil, &BackupError{err.Error()}
	}
	if err := checkPromises(pack, path); err != nil {
		pack.Close()
		return nil, err
	}
	return pack, nil
}

// checkPromises also refuses files that lie over each other.
func checkPromises(pack *zip.ReadCloser, path string) error {
	info, err := os.Stat(path)
	if err != nil {
		return err
	}
	left := uint64(info.Size())
	for _, packed := range pack.File {
		if packed.UncompressedSize64 > alwaysUnpacked && packed.UncompressedSize64/mostInflated > packed.CompressedSize64 {
			return &BackupError{fmt.Sprintf("%s would unpack from %d kB to %d MB, which no record does", packed.Name, packed.CompressedSize64>>10, packed.UncompressedSize64>>20)}
		}
		if packed.CompressedSize64 > left {
			return &BackupError{"its files would be larger than it is"}
		}
		left -= packed.CompressedSize64
	}
	return nil
}
