package templates

import (
	"errors"
	"text/template"
	"text/template/parse"
)

// errBusy says that a field could keep the program busy without an end.
var errBusy = errors.New("range goes over .Lines, once and in no other, and no text calls another")

// finite refuses what might never end although it writes nothing: a range over a large
// count, one in another, and texts that call texts.
func finite(t *template.Template) error {
	if len(t.Templates()) > 1 {
		return errBusy
	}
	if t.Tree == nil {
		return nil
	}
	return finiteList(t.Tree.Root, false)
}

func finiteList(list *parse.ListNode, inRange bool) error {
	if list == nil {
		return nil
	}
	for _, node := range list.Nodes {
		if err := finiteNode(node, inRange); err != nil {
			return err
		}
	}
	return nil
}

func finiteNode(node parse.Node, inRange bool) error {
	switch node := node.(type) {
	case *parse.TemplateNode:
		return errBusy
	case *parse.RangeNode:
		if inRange || node.Pipe.String() != ".Lines" {
			return errBusy
		}
		return finiteBranch(&node.BranchNode, true)
	case *parse.IfNode:
		return finiteBranch(&node.BranchNode, inRange)
	case *parse.WithNode:
		return finiteBranch(&node.BranchNode, inRange)
	}
	return nil
}

func finiteBranch(node *parse.BranchNode, inRange bool) error {
	if err := finiteList(node.List, inRange); err != nil {
		return err
	}
	return finiteList(node.ElseList, inRange)
}
