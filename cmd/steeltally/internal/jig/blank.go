package jig

import (
	"fmt"
	"strconv"
	"strings"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
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
		return like, &inventory.BadValue{Reason: "that is not a model and a length", Hint: "write them such as Skua R 280, and for a holder left or right"}
	}
	size, err := strconv.Atoi(words[len(words)-1])
	if err != nil {
		return like, &inventory.BadValue{Reason: words[len(words)-1] + " is no length in mm", Hint: "write it behind the model, such as Skua R 280"}
	}
	like.model, like.size = strings.Join(words[:len(words)-1], " "), size
	return like, nil
}

// blank asks what a blank tag sticks on, the first time that it is scanned.
func (j *Jig) blank(n inventory.Number, err error) error {
	if err != nil {
		return err
	}
	if !j.MayAsk {
		return desk.StillBlank(n)
	}
	last := ""
	if j.State.Stock != "" {
		last = ", Enter for " + j.State.Stock
	}
	j.ask(Question{Sort: askStock, Text: fmt.Sprintf("blank tag %s: model and length%s?", n.Short(), last), Number: n})
	return nil
}

// enter enters what a blank tag sticks on. A scan instead of an answer is acted on next.
func (j *Jig) enter(n inventory.Number, answer string) (bool, error) {
	if isScan(answer) {
		j.reply.Notices = append(j.reply.Notices, noticeOf(desk.StillBlank(n)))
		return false, nil
	}
	if answer == "" {
		answer = j.State.Stock
	}
	like, err := parseStock(answer)
	if err != nil {
		return true, err
	}
	j.State.Stock = like.String()
	_, done, err := j.Desk.StockIn(deeds.StockIn{
		Piece: n.Kind(), Model: like.model, Size: like.size, Side: like.side, Numbers: []inventory.Number{n},
	})
	return true, j.done(done, err)
}

func noticeOf(err error) inventory.Notice {
	return inventory.Notice{Text: err.Error(), Hint: desk.HintOf(err)}
}
