package book

import "golang.org/x/sys/unix"

const (
	// leastRoom is what an action with its index needs on the disk, generously.
	leastRoom = 1 << 20
	// LowRoom is how many free bytes are so few that a person should be told.
	LowRoom = 200_000_000
)

// Room is how many bytes are free on the disk that a book is on.
func Room(dir string) (uint64, error) {
	var disk unix.Statfs_t
	if err := unix.Statfs(dir, &disk); err != nil {
		return 0, err
	}
	return disk.Bavail * uint64(disk.Bsize), nil
}

// roomFor stops an action early where the disk is all but full.
func (b *Book) roomFor(bytes int) error {
	free, err := Room(b.dir)
	if err != nil || free >= uint64(leastRoom+4*bytes) {
		return nil // where it cannot be told, the write will
	}
	return &FullError{b.dir}
}
