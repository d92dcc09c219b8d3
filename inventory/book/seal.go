package book

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"hash/crc32"
)

const sealBytes = 4

// seal puts the checksum of a key and its value before the value.
func seal(key, value []byte) []byte {
	stored := make([]byte, sealBytes, sealBytes+len(value)+len(key))
	stored = append(append(stored, value...), key...)
	binary.BigEndian.PutUint32(stored, checksum(stored[sealBytes:]))
	return stored[:sealBytes+len(value)]
}

// unseal gives the value that was sealed under a key, or false where it is not as it
// was written.
func unseal(key, stored []byte) ([]byte, bool) {
	if len(stored) < sealBytes {
		return nil, false
	}
	value := stored[sealBytes:]
	sum := crc32.Update(checksum(value), crc32.MakeTable(crc32.Castagnoli), key)
	return value, binary.BigEndian.Uint32(stored) == sum
}

// tally is a sum over a set of things that does not depend on their order: two sets
// with the same tally and the same count are the same, but for chance (2⁻⁶⁴).
type tally uint64

// fingerprint is one thing's part in a tally.
func fingerprint(thing []byte) tally {
	sum := sha256.Sum256(thing)
	return tally(binary.BigEndian.Uint64(sum[:]))
}

// fingerprintOf is the part of a key and its stored value in a bucket; nothing
// stored has no part.
func fingerprintOf(bucket string, key, stored []byte) tally {
	if stored == nil {
		return 0
	}
	whole := make([]byte, 0, len(bucket)+len(key)+len(stored)+3)
	whole = append(append(whole, bucket...), 0, byte(len(key)>>8), byte(len(key)))
	return fingerprint(append(append(whole, key...), stored...))
}

// MarshalText writes the tally in hexadecimal digits.
func (t tally) MarshalText() ([]byte, error) { return fmt.Appendf(nil, "%016x", uint64(t)), nil }

// UnmarshalText reads what MarshalText writes.
func (t *tally) UnmarshalText(text []byte) error {
	data, err := hex.DecodeString(string(text))
	if err != nil || len(data) != 8 {
		return fmt.Errorf("%q is not a tally", text)
	}
	*t = tally(binary.BigEndian.Uint64(data))
	return nil
}
