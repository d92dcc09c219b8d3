package book

import (
	"bytes"
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"golang.org/x/sys/unix"

	"steeltally/inventory"
)

// machineMark says on which machine and in which file a journal is: a copy of the
// folder gets another, the same folder under a new name keeps it. A copy that keeps
// the machine's id, the disk and the file itself (a cloned disk, or old files written
// into the present ones) is not told apart.
func machineMark(dir string) (string, error) {
	var info unix.Statx_t
	path := filepath.Join(dir, journalName)
	if err := unix.Statx(unix.AT_FDCWD, path, 0, unix.STATX_INO|unix.STATX_BTIME, &info); err != nil {
		return "", &os.PathError{Op: "statx", Path: path, Err: err}
	}
	text := fmt.Sprintf("%s %d:%d %d %d.%d", machineID(), info.Dev_major, info.Dev_minor, info.Ino, info.Btime.Sec, info.Btime.Nsec)
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:writerBytes]), nil
}

// machineID is what the system calls the machine, or else its name.
func machineID() string {
	if id, err := os.ReadFile("/etc/machine-id"); err == nil && len(bytes.TrimSpace(id)) > 0 {
		return string(bytes.TrimSpace(id))
	}
	name, err := os.Hostname()
	if err != nil {
		return ""
	}
	return name
}

// newWriter makes the id of a new writer.
func newWriter(random io.Reader) (inventory.Writer, error) {
	if random == nil {
		random = rand.Reader
	}
	var id [writerBytes]byte
	if _, err := io.ReadFull(random, id[:]); err != nil {
		return "", fmt.Errorf("no random bytes for a writer's id: %w", err)
	}
	return inventory.Writer(hex.EncodeToString(id[:])), nil
}
