package geometry

import "math"

// vector3 and matrix3 are the three unknowns of a circle and their normal
// equations.
type (
	vector3 [3]float64
	matrix3 [3]vector3
)

// solve finds x with m·x = v by Gauss's elimination, largest pivot first; false
// when there is no one answer.
func (m matrix3) solve(v vector3) (vector3, bool) {
	for column := range 3 {
		pivot := column
		for row := column + 1; row < 3; row++ {
			if math.Abs(m[row][column]) > math.Abs(m[pivot][column]) {
				pivot = row
			}
		}
		m[column], m[pivot] = m[pivot], m[column]
		v[column], v[pivot] = v[pivot], v[column]
		if m[column][column] == 0 {
			return vector3{}, false
		}
		for row := column + 1; row < 3; row++ {
			factor := m[row][column] / m[column][column]
			for k := column; k < 3; k++ {
				m[row][k] -= factor * m[column][k]
			}
			v[row] -= factor * v[column]
		}
	}
	return m.backSubstitute(v)
}

func (m matrix3) backSubstitute(v vector3) (vector3, bool) {
	for row := 2; row >= 0; row-- {
		for k := row + 1; k < 3; k++ {
			v[row] -= m[row][k] * v[k]
		}
		v[row] /= m[row][row]
		if !isFinite(v[row]) {
			return vector3{}, false
		}
	}
	return v, true
}

func (v vector3) plus(step vector3) vector3 {
	return vector3{v[0] + step[0], v[1] + step[1], v[2] + step[2]}
}

func (v vector3) largest() float64 {
	return max(math.Abs(v[0]), math.Abs(v[1]), math.Abs(v[2]))
}
