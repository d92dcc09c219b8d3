package symbol

import "fmt"

// leastCode128Height is the least height of a Code 128 as a part of its length: 15 %
// (ISO/IEC 15417, recommendation for hand-held reading).
const leastCode128Height = 0.15

// qrCandidates are the smallest QR codes at each error correction level allowed.
func qrCandidates(r Request) ([]candidate, error) {
	least := r.LeastLevel
	if least == "" {
		least = "M"
	}
	var found []candidate
	for _, level := range Levels()[max(least.rank(), 0):] {
		version := smallestVersion(r.Text, level)
		if version == 0 {
			continue
		}
		side := qrModules(version) + 2*QR.QuietZone()
		found = append(found, candidate{
			name:  fmt.Sprintf("QR %d-%s", version, level),
			width: side, height: side, level: level,
			make: func() (Symbol, error) { return EncodeQR(r.Text, level, version) },
		})
	}
	if found == nil {
		return nil, fmt.Errorf("%d characters are too many for a QR at level %s", len(r.Text), least)
	}
	return found, nil
}

// dataMatrixCandidates are the smallest square and, if there is one, rectangle.
func dataMatrixCandidates(r Request) ([]candidate, error) {
	square, err := EncodeDataMatrix(r.Text, Square)
	if err != nil {
		return nil, err
	}
	found := []candidate{made(square)}
	if rectangle, err := EncodeDataMatrix(r.Text, Rectangle); err == nil {
		found = append(found, made(rectangle))
	}
	return found, nil
}

// code128Candidates is the one Code 128 of the text, as high as it must be.
func code128Candidates(r Request) ([]candidate, error) {
	s, err := EncodeCode128(r.Text)
	if err != nil {
		return nil, err
	}
	c := made(s)
	c.height = int(float64(s.Columns)*leastCode128Height + 1)
	return []candidate{c}, nil
}

// made is a candidate whose symbol is there already.
func made(s Symbol) candidate {
	sides, above := s.Quiet()
	name := fmt.Sprintf("%s %d x %d", s.Symbology.Title(), s.Rows, s.Columns)
	return candidate{
		name: name, width: s.Columns + 2*sides, height: s.Rows + 2*above,
		make: func() (Symbol, error) { return s, nil },
	}
}
