package book

import (
	"errors"
)

// Age makes a book look as if another version of the fold had made its states, with
// states that cannot be right.
func Age(dir string) error {
	b, err := Open(dir, Options{})
	if err != nil {
		return err
	}
	err = b.changingDB(func(w *writing) error {
		w.head.Fold = -1
		keys, values := [][]byte{}, [][]byte{}
		err := w.buckets[thingsBucket].ForEach(func(key, stored []byte) error {
			keys, values = append(keys, append([]byte{}, key...)), append(values, []byte("rot"))
			return nil
		})
		for i, key := range keys {
			err = errors.Join(err, w.put(thingsBucket, key, values[i]))
		}
		return err
	})
	return errors.Join(err, b.Close())
}

// Unsynced are options for tests that make thousands of books and lose no power.
func Unsynced() Options {
	return Options{faults: &faults{unsynced: true, journal: func(f file) file {
		return unsyncedFile{f.(syncedFile).File}
	}}}
}

// Faulty are options with the parts of a book that a test makes fail.
func Faulty(journal func(File) File, commit func(func() error) error) Options {
	return Options{faults: &faults{journal: func(f file) file { return journal(f) }, commit: commit}}
}

// File is what the journal needs of a file.
type File = file
