package book

import "errors"

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
