"""What may be asked for: lines whole and checked, from ids or typed words, all of a menu, their prices."""
