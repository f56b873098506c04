"""The keys and the choices of a schema: the language of files, not English."""


def words_of(schema):
    found = set()

    def walk(node):
        if isinstance(node, dict):
            properties = node.get("properties")
            if isinstance(properties, dict):
                found.update(properties)
            for word in ("enum", "const"):
                values = node.get(word, [])
                found.update(v for v in (values if isinstance(values, list) else [values]) if isinstance(v, str))
            for value in node.values():
                walk(value)
        elif isinstance(node, list):
            for value in node:
                walk(value)

    walk(schema)
    return found
