package modules

// DataMatrixSize is one of the sizes that the standard allows.
type DataMatrixSize struct {
	Columns, Rows int
	data, check   int // codewords
	regions       int // across; as many down where square
}

// DataMatrixSizes are the sizes that this reader looks for: square up to 26 × 26
// and rectangular (ISO/IEC 16022:2006, table 7).
func DataMatrixSizes() []DataMatrixSize {
	return []DataMatrixSize{
		{10, 10, 3, 5, 1}, {12, 12, 5, 7, 1}, {14, 14, 8, 10, 1}, {16, 16, 12, 12, 1},
		{18, 18, 18, 14, 1}, {20, 20, 22, 18, 1}, {22, 22, 30, 20, 1}, {24, 24, 36, 24, 1},
		{26, 26, 44, 28, 1},
		{18, 8, 5, 7, 1}, {32, 8, 10, 11, 2}, {26, 12, 16, 14, 1}, {36, 12, 22, 18, 2},
		{36, 16, 32, 24, 2}, {48, 16, 49, 28, 2},
	}
}

func (s DataMatrixSize) regionColumns() int { return s.Columns / s.regions }

func (s DataMatrixSize) regionRows() int {
	if s.Columns != s.Rows {
		return s.Rows
	}
	return s.Rows / s.regions
}

// dataMatrixSize finds the size of a matrix.
func dataMatrixSize(columns, rows int) (DataMatrixSize, bool) {
	for _, s := range DataMatrixSizes() {
		if s.Columns == columns && s.Rows == rows {
			return s, true
		}
	}
	return DataMatrixSize{}, false
}

// The sides of the QR Code symbols that this reader looks for, in modules:
// versions 1 to 10.
const (
	LeastQRSide = 21
	MostQRSide  = 57
	QRSideStep  = 4
)

// qrVersion is the version with a side of that many modules.
func qrVersion(side int) int { return (side - 17) / QRSideStep }
