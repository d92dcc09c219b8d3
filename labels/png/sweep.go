package png

import "sort"

// pair is a left and a right bound of ink in a row.
type pair struct {
	left, right *profile
	x1, x2      int
}

// pairs are the bounds of ink in a row, from left to right.
func pairs(profiles []*profile, row int) []pair {
	var lefts, rights []*profile
	for _, p := range profiles {
		if row < p.bottom() || row > p.top() {
			continue
		}
		if p.rising {
			lefts = append(lefts, p)
		} else {
			rights = append(rights, p)
		}
	}
	for _, side := range [][]*profile{lefts, rights} {
		sort.SliceStable(side, func(i, j int) bool { return side[i].at(row) < side[j].at(row) })
	}
	var list []pair
	for i := range min(len(lefts), len(rights)) {
		x1, x2 := lefts[i].at(row), rights[i].at(row)
		list = append(list, pair{lefts[i], rights[i], min(x1, x2), max(x1, x2)})
	}
	return list
}

// thin tells whether a pair may have no middle of a dot between its bounds.
func (p pair) thin() bool {
	below, above := floor(p.x1), ceil(p.x2)
	return p.x2-p.x1 <= dot && below != p.x1 && above != p.x2 && (below > above || above == below+dot)
}

// stub tells whether a pair is the end of a stroke, which needs no dot of its own.
func (p pair) stub(row int) bool {
	wide := p.x2-p.x1 >= dot/2
	if p.left.next == p.right && p.left.top() == row && !(p.left.overTop && wide) {
		return true
	}
	return p.right.next == p.left && p.right.bottom() == row && !(p.left.overBottom && wide)
}

// sweep visits the rows of profiles from the lowest up: full gets each pair with
// middles of dots between its bounds, thin each one that may have none.
func sweep(profiles []*profile, full, thin func(row int, p pair)) {
	if len(profiles) == 0 {
		return
	}
	low, high := profiles[0].bottom(), profiles[0].top()
	for _, p := range profiles {
		low, high = min(low, p.bottom()), max(high, p.top())
	}
	for row := low; row <= high; row++ {
		list := pairs(profiles, row)
		for _, p := range list {
			if !p.thin() {
				full(row, p)
			}
		}
		for _, p := range list {
			if p.thin() {
				thin(row, p)
			}
		}
	}
}
