package inventory

// ForbidsUse tells whether a damage means that nobody skates on the piece.
func ForbidsUse(mode string) bool {
	switch mode {
	case "crack", "break", "bend":
		return true
	}
	return false
}

// brokenReasons pairs each reason for taking steel off that forbids use with the mode of
// damage that it stands for.
func brokenReasons() [3][2]string {
	return [...][2]string{{"broken", "break"}, {"cracked", "crack"}, {"bent", "bend"}}
}

// ModeOfReason is the damage that a reason for taking steel off stands for.
func ModeOfReason(reason string) string {
	for _, pair := range brokenReasons() {
		if pair[0] == reason {
			return pair[1]
		}
	}
	return reason
}

// ModeThatForbids is the mode of damage that the tag of a holder has to carry where one
// forbids use, whatever else is wrong with it: with the book lost, nothing else would
// tell. It is empty where none does; one that is only suspected counts as a crack.
func ModeThatForbids(damages []Damaged) string {
	mode := ""
	for _, damage := range damages {
		if !damage.Unsafe {
			continue
		}
		if ForbidsUse(damage.Mode) {
			return damage.Mode
		}
		mode = "crack"
	}
	return mode
}

// ReasonThatForbids is the reason that the tag of a runner has to carry where a damage
// forbids use, whatever else it came off for.
func ReasonThatForbids(damages []Damaged) string {
	mode := ModeThatForbids(damages)
	for _, pair := range brokenReasons() {
		if pair[1] == mode {
			return pair[0]
		}
	}
	return mode
}

// UnsafeBy lists what a body says that nobody may skate on, and why.
func UnsafeBy(body Body) []Damaged {
	switch b := body.(type) {
	case *Damaged:
		if b.Unsafe {
			return []Damaged{*b}
		}
	case *Emergency:
		return unsafeAll(b.Suspects, modeSuspect)
	case *Scrapped:
		return unsafeAll(b.Pieces, "scrapped")
	}
	return nil
}

func unsafeAll(pieces []Number, mode string) []Damaged {
	unsafe := make([]Damaged, len(pieces))
	for i, n := range pieces {
		unsafe[i] = Damaged{Piece: n, Mode: mode, Unsafe: true}
	}
	return unsafe
}
