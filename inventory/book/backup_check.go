package book

import (
	"archive/zip"
	"encoding/json"
	"errors"
	"io"
)

// BackupError says that a file is not a whole backup.
type BackupError struct{ What string }

func (e *BackupError) Error() string {
	return "this is not a whole backup: " + e.What + "; take another one, or copy it again"
}

// checkBackup reads a whole backup.
func checkBackup(path string) (manifest, error) {
	return checkBackupWith(path, func([]byte) error { return nil })
}

// checkBackupWith is checkBackup that shows every line, which must not be kept.
func checkBackupWith(path string, visit func(line []byte) error) (manifest, error) {
	pack, err := openBackup(path)
	if err != nil {
		return manifest{}, err
	}
	defer pack.Close()
	said, err := readManifest(pack)
	if err != nil {
		return said, err
	}
	for _, packed := range pack.File {
		if packed.Name == journalName {
			err = said.check(packed, visit)
		} else {
			err = drain(packed, func(r io.Reader) error {
				_, err := io.Copy(io.Discard, r)
				return err
			})
		}
		if err != nil {
			return said, &BackupError{packed.Name + ": " + err.Error()}
		}
	}
	return said, nil
}

func readManifest(pack *zip.ReadCloser) (said manifest, err error) {
	for _, packed := range pack.File {
		if packed.Name == manifestName {
			err = drain(packed, func(r io.Reader) error { return json.NewDecoder(r).Decode(&said) })
		}
	}
	switch {
	case err != nil:
		return said, &BackupError{err.Error()}
	case said.Format > format:
		return said, &NewerError{said.Format}
	case said.Format < 1:
		return said, &BackupError{"it has no " + manifestName}
	}
	return said, nil
}

// drain runs something over one packed file, and checks its checksum at the end.
func drain(packed *zip.File, run func(io.Reader) error) error {
	in, err := packed.Open()
	if err != nil {
		return err
	}
	err = run(in)
	if err == nil {
		_, err = io.Copy(io.Discard, in)
	}
	return errors.Join(err, in.Close())
}

// check holds the packed journal against what must be in it.
func (m manifest) check(packed *zip.File, visit func(line []byte) error) error {
	count, sum := 0, tally(0)
	err := drain(packed, func(r io.Reader) error {
		lines := linesOf(r, 0)
		for {
			line, _, err := lines.next()
			if errors.Is(err, io.EOF) {
				return nil
			}
			if err == nil {
				err = errors.Join(checkLine(line), visit(line))
			}
			if err != nil {
				return err
			}
			count++
			sum += fingerprint(line)
		}
	})
	if err == nil && (count != m.Events || sum != m.Lines) {
		err = errors.New("its events are not those that were packed")
	}
	return err
}
