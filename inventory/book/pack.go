package book

import (
	"bytes"
	"compress/flate"
	"encoding/binary"
	"fmt"
	"io"
	"strconv"
)

// packer packs states: a runner's is a list of much the same entries, and comes down
// to a tenth. Its zero value is ready; only one goroutine can use it at a time.
type packer struct {
	in  *flate.Writer
	out io.ReadCloser
	got bytes.Buffer // what was unpacked last
}

func (p *packer) pack(text []byte) ([]byte, error) {
	var packed bytes.Buffer
	if p.in == nil {
		in, err := flate.NewWriter(&packed, flate.BestSpeed)
		if err != nil {
			return nil, err
		}
		p.in = in
	} else {
		p.in.Reset(&packed)
	}
	if _, err := p.in.Write(text); err != nil {
		return nil, err
	}
	if err := p.in.Close(); err != nil {
		return nil, err
	}
	return packed.Bytes(), nil
}

// unpack gives the text, which holds until the next one is unpacked.
func (p *packer) unpack(packed []byte) ([]byte, error) {
	source := bytes.NewReader(packed)
	if p.out == nil {
		p.out = flate.NewReader(source)
	} else if err := p.out.(flate.Resetter).Reset(source, nil); err != nil {
		return nil, err
	}
	p.got.Reset()
	_, err := p.got.ReadFrom(p.out)
	return p.got.Bytes(), err
}

// In book.db a line is kept without what its key says already, and with its checksum
// as four bytes: a fifth of the whole is saved. Lines that begin in another way, as a
// program of the future may write them, are kept whole.
const (
	lineWhole = 0
	lineSlim  = 1
)

// lineStart is how the line of an event begins.
func lineStart(at order) []byte {
	key := at.packedKey()
	return fmt.Appendf(nil, `{"writer":"%x","seq":%d,"logical":%d,`, key[:writerBytes], key.sequence(), at.logical())
}

// slim is a checked line as it is kept under its order.
func slim(at order, line []byte) []byte {
	start, end := lineStart(at), len(line)-checksumTail
	if !bytes.HasPrefix(line, start) || len(start) > end {
		return append([]byte{lineWhole}, line...)
	}
	digits := string(line[end+len(checksumName) : len(line)-len(checksumEnd)])
	sum, err := strconv.ParseUint(digits, 16, 32)
	if err != nil {
		return append([]byte{lineWhole}, line...)
	}
	kept := make([]byte, 1, 5+end-len(start))
	kept[0] = lineSlim
	return append(binary.BigEndian.AppendUint32(kept, uint32(sum)), line[len(start):end]...)
}

// unslim gives the line again; it has to be checked. Nothing kept gives nil.
func unslim(key, kept []byte) []byte {
	at, ok := parseOrder(key)
	switch {
	case len(kept) > 0 && kept[0] == lineWhole:
		return kept[1:]
	case !ok || len(kept) < 5 || kept[0] != lineSlim:
		return nil
	}
	line := append(make([]byte, 0, len(kept)+checksumTail+80), lineStart(at)...)
	line = append(line, kept[5:]...)
	return fmt.Appendf(line, `%s%08x%s`, checksumName, binary.BigEndian.Uint32(kept[1:]), checksumEnd)
}
