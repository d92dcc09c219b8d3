package book

import (
	"bytes"
	"compress/flate"
	"io"
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
