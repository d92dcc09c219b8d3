package book

import (
	"bytes"
	"encoding/binary"
	"encoding/hex"
	"fmt"

	"steeltally/inventory"
)

const (
	writerBytes = 8
	keyBytes    = writerBytes + 8
	orderBytes  = 8 + keyBytes
	// latestLogical leaves room for those that come after it.
	latestLogical = 1 << 62
)

// writerID is a writer's id as bytes.
type writerID [writerBytes]byte

// MarshalText writes the id in hexadecimal digits.
func (w writerID) MarshalText() ([]byte, error) { return hex.AppendEncode(nil, w[:]), nil }

// UnmarshalText reads what MarshalText writes.
func (w *writerID) UnmarshalText(text []byte) error {
	data, err := hex.DecodeString(string(text))
	if err != nil || len(data) != writerBytes {
		return fmt.Errorf("%q is not the id of a writer", text)
	}
	*w = writerID(data)
	return nil
}

// order is an event's place in the fold as sortable bytes: logical time, writer, sequence.
type order [orderBytes]byte

// packedKey is an event's key as sortable bytes: writer, sequence.
type packedKey [keyBytes]byte

func orderOf(e *inventory.Event) (order, error) { return newOrder(e.Logical, e.Writer, e.Sequence) }

func newOrder(logical uint64, writer inventory.Writer, sequence uint64) (order, error) {
	var o order
	key, err := packKey(inventory.Key{Writer: writer, Sequence: sequence})
	if err != nil {
		return o, err
	}
	if logical == 0 || logical > latestLogical {
		return o, lineError(fmt.Sprintf("its logical time %d is not from 1 to %d", logical, uint64(latestLogical)))
	}
	binary.BigEndian.PutUint64(o[:], logical)
	copy(o[8:], key[:])
	return o, nil
}

// parseOrder reads the bytes of an order; the length must be right.
func parseOrder(data []byte) (order, bool) {
	var o order
	return o, copy(o[:], data) == orderBytes && len(data) == orderBytes
}

func (o order) logical() uint64 { return binary.BigEndian.Uint64(o[:]) }

func (o order) packedKey() packedKey { return packedKey(o[8:]) }

func (o order) after(other order) bool { return bytes.Compare(o[:], other[:]) > 0 }

func (o order) String() string { return hex.EncodeToString(o[:]) }

// packKey checks and packs a key: 16 small hexadecimal digits, a sequence from 1.
func packKey(k inventory.Key) (packedKey, error) {
	var p packedKey
	writer, err := hex.DecodeString(string(k.Writer))
	if err != nil || len(writer) != writerBytes || hex.EncodeToString(writer) != string(k.Writer) {
		return p, lineError(fmt.Sprintf("its writer %.40q is not sixteen hexadecimal digits", string(k.Writer)))
	}
	if k.Sequence == 0 {
		return p, lineError("its sequence is 0, and they begin at 1")
	}
	copy(p[:], writer)
	binary.BigEndian.PutUint64(p[writerBytes:], k.Sequence)
	return p, nil
}

func (p packedKey) writerID() writerID { return writerID(p[:writerBytes]) }

func (p packedKey) writer() inventory.Writer {
	return inventory.Writer(hex.EncodeToString(p[:writerBytes]))
}

func (p packedKey) sequence() uint64 { return binary.BigEndian.Uint64(p[writerBytes:]) }

func (p packedKey) key() inventory.Key {
	return inventory.Key{Writer: p.writer(), Sequence: p.sequence()}
}
