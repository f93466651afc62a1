"""HTTP and sockets, whatever they carry: bodies, routes, problems, the guard at the door."""
