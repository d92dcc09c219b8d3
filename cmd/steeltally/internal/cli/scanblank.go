package cli

import (
	"fmt"
	"strconv"
	"strings"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// stockLike is what a blank tag was stuck on: "Skua R 280 left".
type stockLike struct {
	model string
	size  int
	side  inventory.Side
}

func (s stockLike) String() string {
	return strings.TrimSpace(fmt.Sprintf("%s %d %s", s.model, s.size, s.side))
}

// parseStock reads a model, a length and, where it has one, a side.
func parseStock(text string) (stockLike, error) {
	words := strings.Fields(text)
	like := stockLike{}
	if len(words) > 1 {
		if side, err := inventory.ParseSide(words[len(words)-1]); err == nil {
			like.side, words = side, words[:len(words)-1]
		}
	}
	if len(words) < 2 {
		return like, usage("write the model and the length, such as Skua R 280, and for a holder left or right")
	}
	size, err := strconv.Atoi(words[len(words)-1])
	if err != nil {
		return like, usage("%s is no length in mm; write it behind the model, such as Skua R 280", words[len(words)-1])
	}
	like.model, like.size = strings.Join(words[:len(words)-1], " "), size
	return like, nil
}

// register enters what a blank tag sticks on, the first time that it is scanned. A scan
// instead of an answer is acted on next.
func (l *scanLoop) register(n inventory.Number, err error) error {
	if err != nil {
		return err
	}
	if !l.app.mayAsk() {
		return desk.StillBlank(n)
	}
	last := ""
	if l.entered.model != "" {
		last = ", Enter for " + l.entered.String()
	}
	l.app.voice.ask("blank tag %s: model and length%s? ", n.Short(), last)
	answer := l.answer()
	if _, err := inventory.ScannedNumber(answer); err == nil {
		l.kept = !l.over
		return desk.StillBlank(n)
	}
	if answer != "" || l.entered.model == "" {
		if l.entered, err = parseStock(answer); err != nil {
			return err
		}
	}
	_, done, err := l.desk.StockIn(inventory.StockIn{
		Piece: n.Kind(), Model: l.entered.model, Size: l.entered.size, Side: l.entered.side, Numbers: []inventory.Number{n},
	})
	return l.done(done, err)
}
