// SPDX-License-Identifier: MIT
#include "turnwright/document/node.hpp"

namespace turnwright {

Node::Node() = default;
Node::Node(const Node&) = default;
Node::Node(Node&&) noexcept = default;
Node& Node::operator=(const Node&) = default;
Node& Node::operator=(Node&&) noexcept = default;
Node::~Node() = default;

}  // namespace turnwright
